//! Pages of rules: prose for people, and tables of cases with the figure and the outcome that each must come to.
//!
//! A table has the columns `case`, `input`, `measured` and `outcome`. The input is a small home in words, apart by
//! semicolons: `bedroom 120 x 144` (use and clear size in inches) and then any of
//! `ceiling H`, `ceiling H rising R` (for each foot from the front), `soffit D at H` or `beam D at H` (so deep along the back
//! wall, so high), `chase W x L` (a corner taken from the room),
//! `window clear W x H`, `window OPERATION W x H` (frame size), either with `sill S`,
//! `door OPERATION W x H` (leaf), `door OPERATION clear W x H`, both with `in WALL`,
//! `USE L behind a wall`, `behind a doorway`, `behind an opening of W x H`, `behind a door of W` or `behind an open boundary`
//! (a further room that takes the back of the first), `floor H above ground`, `front wall missing`, and `no deductions` (of the
//! catalogue).
//! Further: `KIND W x D at X,Y facing WAY` (a fixture by the middle of its back, in inches from the left front corner of the
//! room; a shower with `entry E`, a vanity with `bowls A B`), `bed W x D at X,Y facing WAY`, `alarm KIND at X,Y`, `fan N cfm`
//! or `fan N cfm all the time`, `whole-house ventilation`, `ventilation N cfm`, `glass W x H` (of all windows), `module W x L`,
//! `eave D on the road`, `landing at X w W d D below B` (before the front door), `mate line at Y`.
//! A line `Book: id` says by which book the tables after it are judged; the model code until then. What stands after `with` is
//! laid over the page's rule of that book: Book: `irc-2021` with `area = "0.530 sq m"`.
//! The measured figure carries its unit, or is `unknown`, or `none` where there is nothing to measure; the outcome is `met`,
//! `correction`, `unknown`, `advisory` or `does not apply`. After `unknown` may stand what must be entered: `unknown: the
//! ceiling over Bedroom`. Of what does not apply the column of the figure may hold the reason, in the words of the verdict.
//!
//! A case whose name ends in `(drawn)` is the one that explanations of the rule show; where no name does, it is the first that
//! falls short of a book with nothing laid over it.

mod home;

use plan_model::Plan;

/// A small home with what a rule must find there.
#[derive(Clone, Debug)]
pub struct Case {
    /// The id of the book by which it is judged.
    pub book: String,
    /// What the page lays over its rule of that book, in the words of an amendment; none where the book is judged as it is.
    pub laid_over: Option<String>,
    /// What is special about it.
    pub name: String,
    /// The home in words.
    pub input: String,
    /// The figure of the rule, as the page writes it.
    pub measured: String,
    /// What comes out.
    pub outcome: String,
    /// Whether the page marks it as the one to be drawn.
    pub is_marked: bool,
}

/// The cases of a page, in its order.
#[must_use]
pub fn cases(page: &str) -> Vec<Case> {
    let mut book = ("irc-2021", None);
    let mut cases = Vec::new();
    for line in page.lines() {
        if let Some(named) = line.strip_prefix("Book: ") {
            book = book_of_line(named);
        }
        cases.extend(Case::of_line(line, book));
    }
    cases
}

/// The book that a line names, and what it lays over that.
fn book_of_line(named: &str) -> (&str, Option<&str>) {
    let mut quoted = named.split('`').skip(1).step_by(2);
    (quoted.next().unwrap_or(named), quoted.next())
}

/// The case that is drawn where the rule is explained: the one that is marked, or else the first that falls short. It is
/// explained by a book as it is, and so no case is drawn over whose book something is laid. None where several are marked, or
/// none falls short.
#[must_use]
pub fn drawn_case(cases: &[Case]) -> Option<&Case> {
    let by_book_as_it_is = |case: &&Case| case.laid_over.is_none();
    let mut marked = cases.iter().filter(|case| case.is_marked);
    match (marked.next(), marked.next()) {
        (None, _) => cases.iter().filter(by_book_as_it_is).find(|case| case.falls_short()),
        (only, None) => only.filter(by_book_as_it_is),
        (Some(_), Some(_)) => None,
    }
}

impl Case {
    /// A row of a table of cases; none for prose, heads and rules between.
    fn of_line(line: &str, (book, laid_over): (&str, Option<&str>)) -> Option<Self> {
        let cells: Vec<&str> = line.strip_prefix('|')?.strip_suffix('|')?.split('|').map(str::trim).collect();
        let [name, input, measured, outcome, ..] = cells[..] else { return None };
        if name == "case" || name.starts_with("--") {
            return None;
        }
        let unmarked = name.strip_suffix("(drawn)").map(str::trim_end);
        let [name, input, measured, outcome] = [unmarked.unwrap_or(name), input, measured, outcome].map(str::to_owned);
        let (book, laid_over) = (book.to_owned(), laid_over.map(str::to_owned));
        Some(Self { book, laid_over, name, input, measured, outcome, is_marked: unmarked.is_some() })
    }

    /// Whether the rule is not kept.
    #[must_use]
    pub fn falls_short(&self) -> bool {
        matches!(self.outcome.as_str(), "correction" | "advisory")
    }

    /// The home that its words describe, under a state label.
    ///
    /// # Panics
    /// When the words describe none.
    #[must_use]
    pub fn plan(&self) -> Plan {
        home::plan(&self.input)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "# A rule\n| case | input | measured | outcome |\n| --- | --- | --- | --- |\n\
        | kept | bath 60 x 96 | 1 in | met |\n| short | bath 50 x 96 | 0 in | correction |\n\nBook: `hud-3280`.\n\
        | clearer | bath 40 x 96 | 0 in | advisory |\n";

    #[test]
    fn the_first_case_that_falls_short_is_drawn() {
        let all = cases(PAGE);
        let drawn = drawn_case(&all).expect("one falls short");
        assert_eq!((drawn.name.as_str(), drawn.book.as_str()), ("short", "irc-2021"));
    }

    #[test]
    fn a_mark_chooses_another_and_is_no_part_of_the_name() {
        let all = cases(&PAGE.replace("clearer |", "clearer (drawn) |"));
        let drawn = drawn_case(&all).expect("one is marked");
        assert_eq!((drawn.name.as_str(), drawn.book.as_str()), ("clearer", "hud-3280"));
        let all = cases(&PAGE.replace("clearer |", "clearer (drawn) |").replace("kept |", "kept (drawn) |"));
        assert!(drawn_case(&all).is_none(), "two are marked");
    }

    #[test]
    fn what_is_laid_over_a_book_is_read_and_such_a_case_is_not_drawn() {
        let laid_over = "Book: `irc-2021` with `width = \"30 in\"`.\n| mine | bath 30 x 96 | 0 in | correction |\n";
        let all = cases(&format!("{laid_over}{PAGE}"));
        assert_eq!((all[0].book.as_str(), all[0].laid_over.as_deref()), ("irc-2021", Some("width = \"30 in\"")));
        assert_eq!(drawn_case(&all[..1]).map(|case| &case.name), None);
        let last = all.last().expect("the page has cases");
        assert_eq!((last.book.as_str(), last.laid_over.as_deref()), ("hud-3280", None));
    }
}
