//! A proof under way beside the window.

use std::ops::ControlFlow;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};
use std::thread;

use egui::Context;
use plan_model::Plan;
use plan_proof::report::Summary;
use plan_proof::{ProofError, prove};
use plan_rules::RuleBook;

/// A proof that is worked on in a thread of its own.
pub(crate) struct Work {
    homes: Arc<AtomicUsize>,
    is_cancelled: Arc<AtomicBool>,
    outcome: Receiver<Result<Summary, String>>,
}

/// How often the window is told of the homes that were looked at.
const TOLD_EVERY: usize = 16;

impl Work {
    pub(super) fn begin(context: &Context, plan: &Arc<Plan>, book: &Arc<RuleBook>) -> Self {
        let (homes, is_cancelled) = (Arc::new(AtomicUsize::new(0)), Arc::new(AtomicBool::new(false)));
        let (tell, outcome) = mpsc::channel();
        let (plan, book, context) = (Arc::clone(plan), Arc::clone(book), context.clone());
        let (counted, stopped) = (Arc::clone(&homes), Arc::clone(&is_cancelled));
        thread::spawn(move || {
            let proof = prove(&plan, &book, &mut |homes| {
                counted.store(homes, Ordering::Relaxed);
                if homes % TOLD_EVERY == 0 {
                    context.request_repaint();
                }
                if stopped.load(Ordering::Relaxed) { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
            });
            let told = match proof {
                Ok(proof) => Ok(Summary::of(&proof, &book)),
                Err(ProofError::WrongLegalKind(wrong)) => Err(wrong.to_string()),
                Err(ProofError::Cancelled) => Err("The check was stopped.".to_owned()),
            };
            // Nobody may be waiting any more.
            let _ = tell.send(told);
            context.request_repaint();
        });
        Self { homes, is_cancelled, outcome }
    }

    /// How many homes were looked at so far.
    pub(super) fn homes(&self) -> usize {
        self.homes.load(Ordering::Relaxed)
    }

    /// What came of it, once it is done.
    pub(super) fn outcome(&self) -> Option<Result<Summary, String>> {
        match self.outcome.try_recv() {
            Ok(outcome) => Some(outcome),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Err("The check ended without an outcome.".to_owned())),
        }
    }
}

/// Whoever no longer waits for it stops it.
impl Drop for Work {
    fn drop(&mut self) {
        self.is_cancelled.store(true, Ordering::Relaxed);
    }
}
