use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use mateline_app::Start;
use plan_model::{AlternateRef, Date};

/// Draw, show and check the plans of factory-built two-module homes.
///
/// Without a word, the window opens, on PLAN or on the demo home.
#[derive(Debug, Parser)]
#[command(version, args_conflicts_with_subcommands = true, after_help = EXIT_CODES)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) word: Option<Word>,
    #[command(flatten)]
    pub(crate) window: Window,
}

const EXIT_CODES: &str = "\
Exit codes of `check`:
  0  every required rule is met
  1  at least one correction
  2  the input cannot be judged; sentences on the error stream say why and where
  3  no correction, but a required rule that cannot be told from this plan
`selection` ends with 0 when all that was chosen can still be had, with 1 when it cannot, and with 2 as above.

Mateline is a design aid: the adopted code and the authority having jurisdiction govern.";

/// How the window opens.
#[derive(Debug, Args)]
pub(crate) struct Window {
    /// The plan to open
    plan: Option<PathBuf>,
    /// Add a line of JSON to FILE for each change of what the window shows
    #[arg(long, value_name = "FILE")]
    log: Option<PathBuf>,
}

impl From<Window> for Start {
    fn from(window: Window) -> Self {
        Self { plan: window.plan, log: window.log }
    }
}

#[derive(Debug, Subcommand)]
pub(crate) enum Word {
    /// Print every figure of a home
    Measure(Request),
    /// Judge a home by a rule book and print the corrections
    Check(CheckRequest),
    /// Print what a home costs, line by line
    Price(PriceRequest),
    /// Show what a buyer chose of a plan, what of the plan was changed since, and change orders; keep or sign a selection
    Selection(SelectionRequest),
    /// List the selections of a plan that have what a buyer asks for
    Selections(SelectionsRequest),
    /// Print what a rule measures, and its limits, sections and exceptions in each rule book
    Explain {
        /// The rule, as verdicts name it
        rule: String,
        /// A further rule book or amendment: a name or the path of a file; the drawing shows its limit
        #[arg(long, value_name = "BOOK")]
        book: Option<String>,
        /// Draw a small home that falls short of the rule into FILE
        #[arg(long, value_name = "FILE")]
        svg: Option<PathBuf>,
    },
    /// List the rule books and amendments that come with the program, or print one of them, or a file, as a whole
    Books {
        /// A name, or the path of a file
        book: Option<String>,
    },
}

/// What is to be judged.
#[derive(Debug, Args)]
pub(crate) struct CheckRequest {
    #[command(flatten)]
    pub(crate) request: Request,
    /// Prove every selection that can be sold, instead of one
    #[arg(long, conflicts_with_all = ["selected", "selection", "reversed"])]
    pub(crate) every: bool,
}

/// What is sought.
#[derive(Debug, Args)]
#[command(after_help = QUERIES)]
pub(crate) struct SelectionsRequest {
    /// The plan
    pub(crate) file: PathBuf,
    /// What is asked for, in words
    #[arg(long = "where", value_name = "QUERY")]
    pub(crate) asked: String,
    /// The rule book for `meets the book`: a name or the path of a file; without it the book for the label under which the
    /// plan is sold
    #[arg(long)]
    pub(crate) book: Option<String>,
    /// How the report is written
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// How many selections to list, from the cheapest on
    #[arg(long, value_name = "N", default_value_t = 10)]
    pub(crate) limit: usize,
}

const QUERIES: &str = "\
A query, in quotes:
  bedrooms at least 4 and price under 250,000 and not front-porch=none and meets the book

  bedrooms, baths, price, area   each with: at least, at most, over, under, exactly, between ... and ...
  CHOICE=ALTERNATE               by their names in the plan file
  meets the book                 proves every selection, which takes longer
  and, or, not, ( )              brackets tell `and` and `or` apart

Baths are rooms with a tub or shower. The area is the heated one, compared exactly, in sq ft or sq m.";

/// What both words take.
#[derive(Debug, Args)]
pub(crate) struct Request {
    /// The plan
    pub(crate) file: PathBuf,
    /// Another alternate than the included one; may stand once for each choice
    #[arg(long = "select", value_name = "CHOICE=ALTERNATE")]
    pub(crate) selected: Vec<AlternateRef>,
    /// The selection that a file holds
    #[arg(long, value_name = "FILE", conflicts_with_all = ["selected", "reversed"])]
    pub(crate) selection: Option<PathBuf>,
    /// The plan reversed: mirrored left to right
    #[arg(long)]
    pub(crate) reversed: bool,
    /// The rule book, or an amendment with the book that it is laid over: a name or the path of a file; without it the book for
    /// the label under which the plan is sold
    #[arg(long)]
    pub(crate) book: Option<String>,
    /// How the report is written
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
}

/// What is to be priced.
#[derive(Debug, Args)]
pub(crate) struct PriceRequest {
    /// The plan
    pub(crate) file: PathBuf,
    /// Another alternate than the included one; may stand once for each choice
    #[arg(long = "select", value_name = "CHOICE=ALTERNATE")]
    pub(crate) selected: Vec<AlternateRef>,
    /// A price book that is laid over the plan, in the place of its own
    #[arg(long, value_name = "FILE")]
    pub(crate) prices: Option<PathBuf>,
    /// The date of the quote; without it today's, in UTC
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(crate) date: Option<Date>,
    /// How the arithmetic is written
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Short for --format json
    #[arg(long, conflicts_with = "format")]
    json: bool,
}

impl PriceRequest {
    pub(crate) const fn format(&self) -> Format {
        if self.json { Format::Json } else { self.format }
    }
}

/// What `selection` takes.
#[derive(Debug, Args)]
pub(crate) struct SelectionRequest {
    /// The plan
    pub(crate) plan: PathBuf,
    /// The selection file to show or to go on from; without it a new selection is begun
    pub(crate) selection: Option<PathBuf>,
    /// Another alternate than the included or agreed one; may stand once for each choice
    #[arg(long = "select", value_name = "CHOICE=ALTERNATE")]
    pub(crate) selected: Vec<AlternateRef>,
    /// The plan reversed: mirrored left to right
    #[arg(long, conflicts_with = "as_drawn")]
    pub(crate) reversed: bool,
    /// The plan as it is drawn, where the selection had it reversed
    #[arg(long)]
    pub(crate) as_drawn: bool,
    /// What the buyer is called: a name, the number of a lot
    #[arg(long, value_name = "LABEL")]
    pub(crate) buyer: Option<String>,
    /// The day that this is stated for, such as 2026-03-02; the program does not look at the clock
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub(crate) date: Option<Date>,
    /// A remark, kept with the selection or the change order
    #[arg(long = "note", value_name = "TEXT")]
    pub(crate) notes: Vec<String>,
    /// Sign the selection, as this label; it is frozen then, and what is changed becomes a change order
    #[arg(long, value_name = "LABEL")]
    pub(crate) sign: Option<String>,
    /// Write the selection to FILE; nothing is written otherwise
    #[arg(long, value_name = "FILE")]
    pub(crate) save: Option<PathBuf>,
    /// How the report is written
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(crate) format: Format,
    /// The same as `--format json`
    #[arg(long, conflicts_with = "format")]
    pub(crate) json: bool,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Format {
    /// For people
    Text,
    /// For programs
    Json,
}
