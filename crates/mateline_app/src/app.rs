use std::path::PathBuf;
use std::sync::Arc;

use egui::{CentralPanel, Context, Frame, Ui, ViewportCommand};
use plan_edit::actions::ActionId;
use plan_edit::{Command, Tool};
use plan_model::Plan;
use plan_rules::{AmendmentDraft, RuleBook};

use crate::board::{Board, Highlight};
use crate::every::EverySelection;
use crate::files::{Amendment, BookDone, BookFiles, BookStep, Done, Files, Next, SelectionDone, SelectionFiles};
use crate::log::Log;
use crate::notices::{Notices, impossible_ui};
use crate::panel::{Asked, SelectionKept, SidePanel};
use crate::rules_in_force::RulesInForce;
use crate::session::{Session, Unkept};
use crate::{about, focus, shortcuts, theme, top_bar};

const CHOICES_ARE_NOT_KEPT: &str =
    "Your choices are not part of the plan file; Save selection... in the menu beside them keeps them.";

/// More findings are not read in a notice; `mateline selection` lists them all.
const MOST_FINDINGS: usize = 5;

/// The window.
pub struct Mateline {
    rules: RulesInForce,
    session: Session,
    board: Board,
    panel: SidePanel,
    files: Files,
    book_files: BookFiles,
    selection_files: SelectionFiles,
    notices: Notices,
    about_is_open: bool,
    every: EverySelection,
    /// Whether the check of every selection is to begin with the next frame.
    every_is_asked: bool,
    /// Whether the question about unsaved changes was answered and the window is about to close.
    may_close: bool,
    log: Option<Log>,
    title: String,
}

impl Mateline {
    /// A window on a plan; `files` says where it is kept.
    #[must_use]
    pub fn new(context: &Context, plan: Plan, book: RuleBook, files: Files, log: Option<Log>) -> Self {
        theme::install(context);
        let rules = RulesInForce::of(book);
        Self {
            session: Session::new(plan, Arc::clone(rules.book())),
            rules,
            board: Board::default(),
            panel: SidePanel::default(),
            files,
            book_files: BookFiles::default(),
            selection_files: SelectionFiles::default(),
            notices: Notices::default(),
            about_is_open: false,
            every: EverySelection::default(),
            every_is_asked: false,
            may_close: false,
            log,
            title: String::new(),
        }
    }

    /// The plan being worked on, with its figures.
    #[must_use]
    pub const fn session(&self) -> &Session {
        &self.session
    }

    /// The drawing board.
    #[must_use]
    pub const fn board(&self) -> &Board {
        &self.board
    }

    /// What is told to the person at the moment.
    #[must_use]
    pub const fn notices(&self) -> &Notices {
        &self.notices
    }

    fn act(&mut self, action: ActionId) {
        let plan = Arc::clone(&self.session.settled().document.plan);
        let done = match action {
            ActionId::Open => self.files.request(Next::AskOpen, self.unkept()),
            ActionId::Save => self.save(&plan),
            ActionId::SaveAs => {
                self.files.ask_where_to_save(&plan, None);
                None
            }
            ActionId::Undo => {
                self.session.undo();
                None
            }
            ActionId::Redo => {
                self.session.redo();
                None
            }
            ActionId::Fit => {
                self.board.clear_highlight();
                self.board.fit();
                None
            }
            ActionId::NextCorrection => {
                self.go_to_correction(1);
                None
            }
            ActionId::PreviousCorrection => {
                self.go_to_correction(-1);
                None
            }
            ActionId::EverySelection => {
                self.every_is_asked = true;
                None
            }
            ActionId::About => {
                self.about_is_open = true;
                None
            }
        };
        self.take(done);
    }

    /// What would be lost with the session: a selection that stands in a file is not.
    fn unkept(&self) -> Unkept {
        let unkept = self.session.unkept();
        let is_kept = self.selection_files.keeps(&self.session.settled().document.selection);
        if is_kept { Unkept { choices: Vec::new(), ..unkept } } else { unkept }
    }

    /// Saves the plan, or says that there is nothing of it to save where only choices were made.
    fn save(&mut self, plan: &Plan) -> Option<Done> {
        let unkept = self.unkept();
        if !unkept.plan_is_changed && !unkept.choices.is_empty() {
            self.notices.tell(format!("The plan has no changes to save. {CHOICES_ARE_NOT_KEPT}"));
            return None;
        }
        self.files.save(plan, None)
    }

    /// Goes on from the conflict or correction that is marked, or from the first.
    fn go_to_correction(&mut self, by: i64) {
        let shown = self.session.shown();
        let conflicts = shown.conflicts.iter().filter_map(Highlight::conflict);
        let mut places: Vec<Highlight> = conflicts.chain(shown.corrections().map(Highlight::verdict)).collect();
        let Ok(count @ 1..) = i64::try_from(places.len()) else { return };
        // By sentence and place: two windows of one room may fall short in the same words.
        let marked = self.board.highlight().and_then(|marked| places.iter().position(|place| place == marked));
        let next = match marked.and_then(|index| i64::try_from(index).ok()) {
            Some(index) => (index + by).rem_euclid(count),
            None if by < 0 => count - 1,
            None => 0,
        };
        if let Ok(next) = usize::try_from(next) {
            self.board.show(places.swap_remove(next));
        }
    }

    /// Takes over what came of a request; gives whether the program may end.
    fn take(&mut self, done: Option<Done>) -> bool {
        match done {
            None => false,
            Some(Done::Opened(plan)) => {
                self.rules.go_on_to(&plan);
                self.session = Session::new(*plan, Arc::clone(self.rules.book()));
                self.board = Board::default();
                self.panel = SidePanel::default();
                self.selection_files = SelectionFiles::default();
                self.notices = Notices::default();
                false
            }
            Some(Done::Saved { path, then }) => {
                self.session.mark_saved();
                let choices_are_kept = self.unkept().choices.is_empty();
                let choices = if choices_are_kept { String::new() } else { format!(" {CHOICES_ARE_NOT_KEPT}") };
                self.notices.tell(format!("Saved.{choices} File: {}", path.display()));
                // The question about what is lost has been answered.
                let next = then.and_then(|next| self.files.request(next, Unkept::default()));
                self.take(next)
            }
            Some(Done::Failed(why)) => {
                self.notices.warn(why);
                false
            }
            Some(Done::Close) => true,
        }
    }

    fn take_files(&mut self, context: &Context) {
        let plan = Arc::clone(&self.session.settled().document.plan);
        let done = self.files.receive_picked(&plan);
        self.finish(done, context);
        let dropped: Option<PathBuf> =
            context.input(|input| input.raw.dropped_files.first().map(|file| file.path().to_owned()));
        if let Some(path) = dropped {
            let done = self.files.request(Next::Open(path), self.unkept());
            self.take(done);
        }
        let closing = context.input(|input| input.viewport().close_requested());
        let amendment = self.rules.unsaved().map(|draft| draft.name.clone());
        let unkept = Unkept { amendment, ..self.unkept() };
        if closing && !unkept.is_nothing() && !self.may_close {
            context.send_viewport_cmd(ViewportCommand::CancelClose);
            self.files.request(Next::Close, unkept);
        }
    }

    /// Goes on to another book, after asking about an amendment that would be lost.
    fn step_to(&mut self, step: BookStep) {
        match self.rules.unsaved() {
            Some(draft) => self.book_files.ask_whether_to_leave(self.amendment(draft), step),
            None => self.take_step(step),
        }
    }

    fn take_step(&mut self, step: BookStep) {
        match step {
            BookStep::JudgeBy(id) => {
                if let Some(book) = RuleBook::built_in(&id) {
                    self.rules = RulesInForce::of(book);
                }
            }
            BookStep::BackToTheCode => self.rules.back_to_the_code(),
            BookStep::Open => {
                self.book_files.ask_what_to_open();
                return;
            }
        }
        self.judge_anew();
    }

    fn take_book(&mut self, done: BookDone) {
        match done {
            BookDone::Opened(book) => {
                self.rules = RulesInForce::of(*book);
                self.judge_anew();
            }
            BookDone::Saved { path, draft } => {
                match self.rules.mark_saved(draft, &path) {
                    Ok(()) => self.notices.tell(format!("Saved the amendment. File: {}", path.display())),
                    Err(error) => self.notices.warn(error.to_string()),
                }
                self.judge_anew();
            }
            BookDone::Left(step) => self.take_step(step),
        }
    }

    fn ask_where_to_save_selection(&mut self) {
        if !self.session.settled().can_be_built() {
            self.notices.warn("What cannot be built as chosen is not kept as a selection.");
            return;
        }
        let plan = Arc::clone(&self.session.settled().document.plan);
        self.selection_files.ask_where_to_save(&plan);
    }

    fn take_selection(&mut self, done: SelectionDone) {
        match done {
            SelectionDone::Saved(path) => self.notices.tell(format!("Saved the selection. File: {}", path.display())),
            SelectionDone::Opened { buyer, opened } => {
                if let Err(refused) = self.session.do_command(&Command::Select(opened.selection.clone())) {
                    self.notices.warn(refused.to_string());
                    return;
                }
                let mut sentences = vec![format!("Opened the selection of {buyer}.")];
                sentences.extend(opened.findings.iter().take(MOST_FINDINGS).map(ToString::to_string));
                let further = opened.findings.len().saturating_sub(MOST_FINDINGS);
                if further > 0 {
                    sentences.push(format!("And {further} more."));
                }
                let text = sentences.join("\n");
                if opened.holds() { self.notices.tell(text) } else { self.notices.warn(text) }
            }
        }
    }

    fn amendment(&self, draft: &AmendmentDraft) -> Amendment {
        Amendment { draft: draft.clone(), base: self.rules.file_of_base() }
    }

    fn judge_anew(&mut self) {
        self.session.judge_by(Arc::clone(self.rules.book()));
    }

    fn set_title(&mut self, context: &Context) {
        let unsaved = if self.session.is_saved() { "" } else { " (not saved)" };
        let title = format!("{}{unsaved} - Mateline", self.session.shown().document.plan.name);
        if self.title != title {
            context.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn modal_ui(&mut self, context: &Context) {
        if self.about_is_open {
            self.about_is_open = about::about_ui(context, self.rules.book());
        }
        let plan = Arc::clone(&self.session.settled().document.plan);
        if std::mem::take(&mut self.every_is_asked) {
            self.every.begin(context, &plan, self.rules.book());
        }
        if let Some(selection) = self.every.every_ui(context) {
            // Whatever is shown of it, the home is reversed if it was.
            let is_reversed = self.session.settled().document.selection.is_reversed();
            let selection = selection.with_reversed(is_reversed);
            if let Err(refused) = self.session.do_command(&Command::Select(selection)) {
                self.notices.warn(refused.to_string());
            }
            context.request_repaint();
        }
        let done = self.files.question_ui(context, &plan);
        self.finish(done, context);
        let selection = self.session.settled().document.selection.clone();
        if let Some(done) = self.selection_files.question_ui(context, self.files.dialog(), &plan, &selection) {
            self.take_selection(done);
            context.request_repaint();
        }
        if let Some(done) = self.book_files.question_ui(context, self.files.dialog()) {
            self.take_book(done);
            context.request_repaint();
        }
    }

    fn finish(&mut self, done: Option<Done>, context: &Context) {
        if self.take(done) {
            self.may_close = true;
            context.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    fn write_log(&mut self, context: &Context) {
        let Some(log) = &mut self.log else { return };
        let noted =
            log.note(&self.session, &self.board, self.files.told().or(self.notices.text()), context.pixels_per_point());
        if let Err(error) = noted {
            self.log = None;
            self.notices.warn(format!("The log is no longer written: {error}."));
        }
    }
}

impl eframe::App for Mateline {
    fn logic(&mut self, context: &Context, _: &mut eframe::Frame) {
        self.take_files(context);
        let is_asking = self.files.is_asking() || self.book_files.is_asking() || self.selection_files.is_asking();
        if !is_asking && !self.about_is_open && !self.every.is_open() {
            for action in shortcuts::pressed(context) {
                self.act(action);
            }
        }
        self.set_title(context);
    }

    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        let revision = self.session.shown().revision;
        if let Some(action) = top_bar::top_bar_ui(ui, &self.session, &mut self.board) {
            self.act(action);
        }
        let kept = SelectionKept {
            buyer: self.selection_files.buyer(),
            is_saved: self.selection_files.keeps(&self.session.settled().document.selection),
        };
        let asked = self.panel.side_panel_ui(ui, self.session.shown(), &self.rules, kept, self.board.highlight());
        match asked {
            Some(Asked::Command(command)) => {
                if let Err(refused) = self.session.do_command(&command) {
                    self.notices.warn(refused.to_string());
                }
            }
            Some(Asked::Show(highlight)) => self.board.show(highlight),
            Some(Asked::Act(action)) => self.act(action),
            Some(Asked::JudgeBy(id)) => self.step_to(BookStep::JudgeBy(id)),
            Some(Asked::BackToTheCode) => self.step_to(BookStep::BackToTheCode),
            Some(Asked::OpenBook) => self.step_to(BookStep::Open),
            Some(Asked::SaveAmendment) => {
                if let Some(draft) = self.rules.draft() {
                    self.book_files.ask_where_to_save(self.amendment(draft));
                }
            }
            Some(Asked::OpenSelection) => self.selection_files.ask_what_to_open(),
            Some(Asked::SaveSelection) => self.ask_where_to_save_selection(),
            Some(Asked::Amend(draft)) => {
                if let Err(error) = self.rules.amend(*draft) {
                    self.notices.warn(error.to_string());
                }
                self.judge_anew();
            }
            // The panel explains by itself.
            Some(Asked::Explain(_)) | None => {}
        }
        CentralPanel::default().frame(Frame::NONE).show(ui, |ui| {
            let area = ui.available_rect_before_wrap();
            if let Err(refused) = self.board.board_ui(ui, &mut self.session) {
                self.notices.warn(refused.to_string());
            }
            if matches!(self.session.tool(), Tool::Idle) {
                impossible_ui(ui, area, self.session.shown());
            }
            self.notices.notice_ui(ui, area);
        });
        self.modal_ui(ui.ctx());
        focus::focus_ring_ui(ui.ctx());
        self.write_log(ui.ctx());
        if self.session.shown().revision != revision {
            // Bar and panel were drawn before the board changed what they show.
            ui.ctx().request_repaint();
        }
    }
}
