use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

use egui::Context;

/// What a file dialog is opened for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A plan to open.
    Open,
    /// A file to save to; the dialog asks whether a file that is there may be replaced.
    Save {
        /// The name that is suggested.
        name: String,
    },
    /// A selection to open.
    OpenSelection,
    /// A file to save a selection to.
    SaveSelection {
        /// The name that is suggested.
        name: String,
    },
    /// A rule book or amendment to open.
    OpenBook,
    /// A file to save an amendment to.
    SaveAmendment {
        /// The name that is suggested.
        name: String,
    },
}

/// A file dialog: it shows itself, waits for the person, and gives the path that was picked, if one was.
///
/// It runs in a thread of its own.
pub type Dialog = Arc<dyn Fn(&Wanted) -> Option<PathBuf> + Send + Sync>;

/// The desktop's own file dialog.
pub(super) fn system_dialog() -> Dialog {
    Arc::new(|wanted| {
        let plan = || rfd::FileDialog::new().add_filter("Plan", &["json"]);
        let selection = || rfd::FileDialog::new().add_filter("Selection", &["json"]);
        let book = || rfd::FileDialog::new().add_filter("Rule book or amendment", &["toml"]);
        match wanted {
            Wanted::Open => plan().set_title("Open a plan").pick_file(),
            Wanted::Save { name } => plan().set_title("Save the plan").set_file_name(name).save_file(),
            Wanted::OpenSelection => selection().set_title("Open a selection").pick_file(),
            Wanted::SaveSelection { name } => {
                selection().set_title("Save the selection").set_file_name(name).save_file()
            }
            Wanted::OpenBook => book().set_title("Open rule book or amendment").pick_file(),
            Wanted::SaveAmendment { name } => book().set_title("Save the amendment").set_file_name(name).save_file(),
        }
    })
}

/// A file dialog that is open, in a thread of its own so that the window goes on drawing.
///
/// It belongs to the question it was opened from and goes with it: a path that is picked later is heard by nobody.
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
    pub(super) fn start(context: &Context, dialog: &Dialog, wanted: Wanted) -> Self {
        let (sender, picked) = channel();
        let (context, dialog) = (context.clone(), Arc::clone(dialog));
        std::thread::spawn(move || {
            let asked = Instant::now();
            let picked = match dialog(&wanted) {
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
