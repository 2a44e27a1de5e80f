use std::path::PathBuf;
use std::sync::Arc;

use plan_model::Plan;
use plan_rules::{AmendmentDraft, BookError, BookSource, RuleBook};

/// The book that judges, with the amendment that is being written laid over it. It is no part of the plan: undo leaves it as
/// it is.
pub(crate) struct RulesInForce {
    /// Without the amendment that is being written.
    base: Arc<RuleBook>,
    draft: Option<AmendmentDraft>,
    /// With it.
    book: Arc<RuleBook>,
    /// Whether the amendment stands in a file as it is.
    is_saved: bool,
}

impl RulesInForce {
    /// A book as it was opened.
    #[must_use]
    pub(crate) fn of(book: RuleBook) -> Self {
        let book = Arc::new(book);
        Self { base: Arc::clone(&book), draft: None, book, is_saved: true }
    }

    /// The book that judges.
    #[must_use]
    pub(crate) const fn book(&self) -> &Arc<RuleBook> {
        &self.book
    }

    /// The same without the amendment that is being written.
    #[must_use]
    pub(crate) fn base(&self) -> &RuleBook {
        &self.base
    }

    /// The amendment that is being written, if one is.
    #[must_use]
    pub(crate) const fn draft(&self) -> Option<&AmendmentDraft> {
        self.draft.as_ref()
    }

    /// The amendment that would be lost with this.
    #[must_use]
    pub(crate) fn unsaved(&self) -> Option<&AmendmentDraft> {
        self.draft.as_ref().filter(|_| !self.is_saved)
    }

    /// What an amendment names that is laid over the base: the id of what comes with the program, else the name of its file.
    #[must_use]
    pub(crate) fn name_of_base(&self) -> String {
        let facts = self.base.facts();
        let (id, source) = match facts.amendments.last() {
            Some(amendment) => (&amendment.id, &amendment.source),
            None => (&facts.id, &facts.source),
        };
        match source {
            BookSource::File(path) => path.clone(),
            BookSource::BuiltIn | BookSource::Text => id.clone(),
        }
    }

    /// Lays an amendment over the base in the place of the one before; one that changes nothing is none.
    ///
    /// # Errors
    /// When its text cannot be read; everything stays as it was.
    pub(crate) fn amend(&mut self, draft: AmendmentDraft) -> Result<(), BookError> {
        if draft.rules.is_empty() {
            self.book = Arc::clone(&self.base);
            self.draft = None;
            self.is_saved = true;
            return Ok(());
        }
        self.book = Arc::new(draft.laid_over(&self.base)?);
        self.draft = Some(draft);
        self.is_saved = false;
        Ok(())
    }

    /// Remembers the amendment as the one in a file, which then judges.
    ///
    /// # Errors
    /// When its text cannot be read.
    pub(crate) fn mark_saved(&mut self, draft: AmendmentDraft, path: &std::path::Path) -> Result<(), BookError> {
        self.amend(draft)?;
        let book = (*self.book).clone();
        self.book = Arc::new(book.found_at(BookSource::File(path.display().to_string())));
        self.is_saved = true;
        Ok(())
    }

    /// Takes every amendment away.
    pub(crate) fn back_to_the_code(&mut self) {
        *self = Self::of(self.book.code().unwrap_or(&self.base).clone());
    }

    /// Goes on to another plan: the book stays where it is for such homes or where an amendment would be lost, else the one
    /// for the label of the plan takes its place.
    pub(crate) fn go_on_to(&mut self, plan: &Plan) {
        let kind = plan.home.legal_kind;
        if !self.book.is_for(kind)
            && self.unsaved().is_none()
            && let Some(book) = RuleBook::default_for(kind)
        {
            *self = Self::of(book);
        }
    }

    /// The file that the base was read from, if it was.
    #[must_use]
    pub(crate) fn file_of_base(&self) -> Option<PathBuf> {
        let facts = self.base.facts();
        match facts.amendments.last().map_or(&facts.source, |amendment| &amendment.source) {
            BookSource::File(path) => Some(PathBuf::from(path)),
            BookSource::BuiltIn | BookSource::Text => None,
        }
    }
}
