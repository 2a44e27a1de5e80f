//! What the schema of a price book cannot say: alternates that the plan has, lines that are above, signs, places.

use super::consistency::{Found, WELL_FORMED, fault_of_name};
use super::nearest;
use crate::{
    Basis, Expiry, Id, LineKind, Money, Percent, PercentOf, Plan, PriceBook, PriceLine, Selection, currency_places,
};

/// Where a price book stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Standing {
    /// Under `prices` of the plan.
    InThePlan,
    /// In a file of its own.
    InAFile,
}

/// Everything wrong with a price book for this plan.
pub(super) fn problems(plan: &Plan, book: &PriceBook, standing: Standing) -> Vec<Found> {
    let mut checker = Checker { plan, book, standing, found: Vec::new() };
    checker.head();
    checker.dates();
    checker.prices_of_the_plan();
    for index in 0..book.lines.len() {
        checker.line(index);
    }
    checker.found
}

/// What keeps an amount from being one of this currency.
pub(super) fn fault_of_amount(amount: Money, currency: &str) -> Option<String> {
    let places = currency_places(currency);
    (!amount.fits(places)).then(|| format!("amounts in {currency} have at most {places} decimal places"))
}

struct Checker<'a> {
    plan: &'a Plan,
    book: &'a PriceBook,
    standing: Standing,
    found: Vec<Found>,
}

impl<'a> Checker<'a> {
    fn report(&mut self, path: &str, id: Option<&Id>, message: impl Into<String>) {
        let path = match self.standing {
            Standing::InThePlan => format!("prices.{path}"),
            Standing::InAFile => path.to_owned(),
        };
        self.found.push(Found { path, id: id.cloned(), message: message.into() });
    }

    fn report_any(&mut self, path: &str, id: Option<&Id>, fault: Option<String>) {
        if let Some(fault) = fault {
            self.report(path, id, fault);
        }
    }

    fn head(&mut self) {
        let (plan, book) = (self.plan, self.book);
        if book.mateline_prices != PriceBook::VERSION {
            let (read, version) = (PriceBook::VERSION, book.mateline_prices);
            let message = format!("this program reads version {read} of the price book, not {version}");
            self.report("mateline_prices", None, message);
        }
        self.report_any("name", None, fault_of_name(&book.name));
        if book.currency != plan.currency {
            let (own, currency) = (&book.currency, &plan.currency);
            self.report("currency", None, format!("expected the plan's currency, {currency}, not {own}"));
        }
        if book.lines.len() > PriceBook::MOST_LINES {
            self.report("lines", None, format!("a price book has at most {} lines", PriceBook::MOST_LINES));
        }
    }

    fn dates(&mut self) {
        let (book, days) = (self.book, 1..=PriceBook::LONGEST);
        let message = || format!("expected from 1 to {} days", PriceBook::LONGEST);
        match book.expires {
            Some(Expiry::On(date)) if date < book.effective => {
                let message = format!("expires on {date}, before it is effective on {}", book.effective);
                self.report("expires", None, message);
            }
            Some(Expiry::AfterDays(after)) if !days.contains(&after) => self.report("expires", None, message()),
            _ => {}
        }
        if book.quote_days.is_some_and(|quote| !days.contains(&quote)) {
            self.report("quote_days", None, message());
        }
    }

    /// What a file of its own may say in the place of the plan.
    fn prices_of_the_plan(&mut self) {
        let (plan, book) = (self.plan, self.book);
        if self.standing == Standing::InThePlan {
            let only_in_a_file = |stands: &str| format!("only a price book in a file of its own has this; {stands}");
            if book.base.is_some() {
                self.report("base", None, only_in_a_file("the plan's own base price is `base_price`"));
            }
            if !book.alternates.is_empty() {
                let message = only_in_a_file("in the plan a price stands with its alternate");
                self.report("alternates", None, message);
            }
            return;
        }
        self.report_any("base", None, book.base.and_then(|base| fault_of_amount(base, &plan.currency)));
        for (index, named) in book.alternates.iter().enumerate() {
            let path = format!("alternates[{index}]");
            if let Err(error) = Selection::default().with(plan, &named.alternate) {
                self.report(&format!("{path}.alternate"), None, error.to_string());
            }
            let is_same = |earlier: &&crate::AlternatePrice| earlier.alternate == named.alternate;
            if book.alternates[..index].iter().find(is_same).is_some() {
                let message = format!("`{}` has a price above; each alternate stands once", named.alternate);
                self.report(&format!("{path}.alternate"), None, message);
            }
            self.report_any(&format!("{path}.price"), None, fault_of_amount(named.price, &plan.currency));
        }
    }

    fn line(&mut self, index: usize) {
        let book = self.book;
        let (line, path) = (&book.lines[index], format!("lines[{index}]"));
        let id = Some(&line.id);
        if !line.id.is_well_formed() {
            self.report(&format!("{path}.id"), id, WELL_FORMED);
        }
        if PercentOf::WORDS.contains(&line.id.as_str()) {
            let message =
                format!("no line is called {}: percentages name other things so", PercentOf::WORDS.join(", "));
            self.report(&format!("{path}.id"), id, message);
        }
        if let Some(earlier) = book.lines[..index].iter().position(|earlier| earlier.id == line.id) {
            let message = format!("the id \"{}\" is taken by lines[{earlier}]; every line has its own", line.id);
            self.report(&format!("{path}.id"), id, message);
        }
        self.report_any(&format!("{path}.name"), id, fault_of_name(&line.name));
        match &line.basis {
            Basis::Amount(amount) => {
                let fault =
                    sign_of_amount(line.kind, *amount).or_else(|| fault_of_amount(*amount, &self.plan.currency));
                self.report_any(&format!("{path}.amount"), id, fault);
            }
            Basis::Each { price, .. } => {
                self.report_any(&format!("{path}.each"), id, sign_of_amount(line.kind, *price));
            }
            Basis::Percent { percent, of } => {
                self.report_any(&format!("{path}.percent"), id, fault_of_percent(line.kind, *percent));
                self.percent_of(&path, line, of, &book.lines[..index]);
            }
        }
        if line.kind == LineKind::Tax && !matches!(line.basis, Basis::Percent { .. }) {
            self.report(&path, id, "a tax is a percentage: expected `percent` and `of`");
        }
    }

    fn percent_of(&mut self, path: &str, line: &PriceLine, of: &[PercentOf], above: &'a [PriceLine]) {
        let id = Some(&line.id);
        if of.is_empty() {
            let message = "expected what the percentage is of: subtotal, or base, options and ids of lines above";
            self.report(&format!("{path}.of"), id, message);
        }
        if of.len() > 1 && of.contains(&PercentOf::Subtotal) {
            self.report(&format!("{path}.of"), id, "the subtotal holds everything above: it stands alone");
        }
        for (index, part) in of.iter().enumerate() {
            let path = format!("{path}.of[{index}]");
            if of[..index].contains(part) {
                self.report(&path, id, format!("`{}` would be counted twice", part.word()));
            }
            let PercentOf::Line(named) = part else { continue };
            let ids = || above.iter().map(|line| line.id.as_str());
            if ids().any(|id| id == named.as_str()) {
                continue;
            }
            let message = if self.book.lines.iter().any(|line| line.id == *named) {
                format!("the line \"{named}\" is not above this one; a percentage is of what is reckoned before it")
            } else {
                let near = nearest(named.as_str(), PercentOf::WORDS.into_iter().chain(ids()));
                let hint = near.map_or_else(String::new, |near| format!("; did you mean \"{near}\"?"));
                format!("there is no line \"{named}\"{hint}")
            };
            self.report(&path, id, message);
        }
    }
}

/// Credits take off, all other lines add.
fn sign_of_amount(kind: LineKind, amount: Money) -> Option<String> {
    match kind {
        LineKind::Credit if !amount.is_negative() => Some("a credit takes off: expected a negative amount".to_owned()),
        LineKind::Credit => None,
        _ => amount.is_negative().then(|| "only a credit takes off: expected an amount from 0".to_owned()),
    }
}

fn fault_of_percent(kind: LineKind, percent: Percent) -> Option<String> {
    match (kind, percent.is_negative()) {
        _ if !percent.is_part() => Some("expected a percentage other than 0, of at most 100".to_owned()),
        (LineKind::Credit, false) => Some("a credit takes off: expected a negative percentage".to_owned()),
        (LineKind::Credit, true) | (_, false) => None,
        (_, true) => Some("only a credit takes off: expected a percentage greater than 0".to_owned()),
    }
}
