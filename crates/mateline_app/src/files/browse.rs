use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

use egui::Context;

/// The system's file dialog, open in a thread of its own so that the window goes on drawing.
pub(super) struct Browse {
    picked: Receiver<Picked>,
}

/// What the dialog gave.
pub(super) enum Picked {
    /// A file.
    Path(PathBuf),
    /// The person thought better of it.
    Cancelled,
    /// There is no dialog here.
    NoDialog,
}

/// Without a portal and without zenity the dialog "is cancelled" at once; nobody cancels one so fast.
const FASTER_THAN_A_HAND: Duration = Duration::from_millis(300);

impl Browse {
    pub(super) fn to_open(context: &Context) -> Self {
        Self::start(context, |dialog| dialog.set_title("Open a plan").pick_file())
    }

    pub(super) fn to_save(context: &Context, name: &str) -> Self {
        let name = name.to_owned();
        Self::start(context, move |dialog| dialog.set_title("Save the plan").set_file_name(name).save_file())
    }

    fn start(context: &Context, ask: impl FnOnce(rfd::FileDialog) -> Option<PathBuf> + Send + 'static) -> Self {
        let (sender, picked) = channel();
        let context = context.clone();
        std::thread::spawn(move || {
            let asked = Instant::now();
            let picked = match ask(rfd::FileDialog::new().add_filter("Plan", &["json"])) {
                Some(path) => Picked::Path(path),
                None if asked.elapsed() < FASTER_THAN_A_HAND => Picked::NoDialog,
                None => Picked::Cancelled,
            };
            // The question may have been closed meanwhile; then nobody listens.
            let _ = sender.send(picked);
            context.request_repaint();
        });
        Self { picked }
    }

    /// What the dialog gave, once it has.
    pub(super) fn picked(&self) -> Option<Picked> {
        match self.picked.try_recv() {
            Ok(picked) => Some(picked),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Picked::NoDialog),
        }
    }
}
