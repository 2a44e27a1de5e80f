use plan_geometry::Derived;
use plan_model::{
    AlternateRef, Basis, Home, Id, LineKind, Money, Per, Percent, PercentOf, Plan, PriceLine, Selection,
    currency_places,
};
use rust_decimal::Decimal;
use thiserror::Error;

use super::count::count;
use crate::price_lines;

/// Every line of a price and their sum, in the plan's currency.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceArithmetic {
    /// Decimal places of the currency, to which every line is rounded.
    pub places: u32,
    /// The base price, what each chosen alternate adds or takes off, then the lines of the price book.
    pub lines: Vec<QuoteLine>,
    /// How many of the lines are of the home as it is chosen: the base price and the alternates, which come first.
    pub of_home: usize,
    /// The sum of the base price and the alternates.
    pub home: Money,
    /// The sum of all lines.
    pub total: Money,
}

/// A line of a price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuoteLine {
    /// What it is of.
    pub of: LineOf,
    /// Its name on quotes.
    pub label: String,
    /// How its amount comes about.
    pub basis: LineBasis,
    /// Rounded to the places of the currency.
    pub amount: Money,
}

/// What a line of a price is of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineOf {
    /// The base price.
    Base,
    /// A chosen alternate.
    Alternate(AlternateRef),
    /// A line of the price book.
    Line {
        /// Its id.
        id: Id,
        /// What it is.
        kind: LineKind,
    },
}

/// How the amount of a line comes about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineBasis {
    /// It is stated.
    Stated,
    /// So much for each.
    Each {
        /// How many.
        count: Decimal,
        /// Of what.
        per: Per,
        /// For one.
        price: Money,
    },
    /// A percentage.
    Percent {
        /// How much.
        percent: Percent,
        /// Of what.
        of: Vec<PercentOf>,
        /// The names of that on quotes.
        labels: Vec<String>,
        /// What that comes to.
        sum: Money,
    },
}

/// A line that cannot be reckoned.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Unreckoned {
    /// It goes by the heated area, and not every space is a room that closes.
    #[error("the line \"{0}\" goes by the heated area, which is unknown: not every space is a room that closes")]
    NoHeatedArea(String),
    /// It is larger than an amount can be.
    #[error("the line \"{0}\" is too large to be reckoned exactly")]
    TooLarge(String),
}

/// What a selection costs, line by line, whatever the day; `derived` is what was derived of `home`.
///
/// # Errors
/// When a line cannot be reckoned: then there is no total either.
pub fn arithmetic(home: &Home<'_>, derived: &Derived, selection: &Selection) -> Result<PriceArithmetic, Unreckoned> {
    let mut sheet = Sheet::new(&home.plan);
    sheet.add(LineOf::Base, "Base price".to_owned(), LineBasis::Stated, home.plan.base_price.rounded(sheet.places))?;
    for line in price_lines(&home.plan, selection) {
        let answer = AlternateRef { choice: line.choice.id.clone(), alternate: line.alternate.id.clone() };
        let label = format!("{}: {}", line.choice.name, line.alternate.name);
        let amount = line.alternate.price.rounded(sheet.places);
        sheet.add(LineOf::Alternate(answer), label, LineBasis::Stated, amount)?;
    }
    let (of_home, home_price) = (sheet.lines.len(), sheet.total);
    for line in home.plan.prices.iter().flat_map(|book| &book.lines) {
        sheet.line(home, derived, line)?;
    }
    Ok(PriceArithmetic { places: sheet.places, lines: sheet.lines, of_home, home: home_price, total: sheet.total })
}

/// Lines as they are added up.
struct Sheet {
    places: u32,
    lines: Vec<QuoteLine>,
    total: Money,
}

impl Sheet {
    fn new(plan: &Plan) -> Self {
        Self { places: currency_places(&plan.currency), lines: Vec::new(), total: Money::ZERO }
    }

    fn add(&mut self, of: LineOf, label: String, basis: LineBasis, amount: Option<Money>) -> Result<(), Unreckoned> {
        let sum = |amount: Money| Some((amount, self.total.plus(amount)?));
        let Some((amount, total)) = amount.and_then(sum) else { return Err(Unreckoned::TooLarge(label)) };
        self.total = total;
        self.lines.push(QuoteLine { of, label, basis, amount });
        Ok(())
    }

    fn line(&mut self, home: &Home<'_>, derived: &Derived, line: &PriceLine) -> Result<(), Unreckoned> {
        let (basis, amount) = match &line.basis {
            Basis::Amount(amount) => (LineBasis::Stated, amount.rounded(self.places)),
            Basis::Each { price, per } => {
                let Some(count) = count(home, derived, *per) else {
                    return Err(Unreckoned::NoHeatedArea(line.name.clone()));
                };
                (LineBasis::Each { count, per: *per, price: *price }, price.times(count, self.places))
            }
            Basis::Percent { percent, of } => {
                let Some(sum) = self.sum(of) else { return Err(Unreckoned::TooLarge(line.name.clone())) };
                let labels = of.iter().map(|part| self.label(part)).collect();
                let basis = LineBasis::Percent { percent: *percent, of: of.clone(), labels, sum };
                (basis, sum.times(percent.factor(), self.places))
            }
        };
        self.add(LineOf::Line { id: line.id.clone(), kind: line.kind }, line.name.clone(), basis, amount)
    }

    /// The sum of every line above that a percentage is of.
    fn sum(&self, of: &[PercentOf]) -> Option<Money> {
        let is_meant = |line: &&QuoteLine| {
            of.iter().any(|part| match (part, &line.of) {
                (PercentOf::Subtotal, _)
                | (PercentOf::Base, LineOf::Base)
                | (PercentOf::Options, LineOf::Alternate(_)) => true,
                (PercentOf::Line(named), LineOf::Line { id, .. }) => named == id,
                _ => false,
            })
        };
        self.lines.iter().filter(is_meant).try_fold(Money::ZERO, |sum, line| sum.plus(line.amount))
    }

    fn label(&self, part: &PercentOf) -> String {
        let named =
            |id: &Id| self.lines.iter().find(|line| matches!(&line.of, LineOf::Line { id: other, .. } if other == id));
        match part {
            PercentOf::Base => "base price".to_owned(),
            PercentOf::Options => "options".to_owned(),
            PercentOf::Subtotal => "subtotal".to_owned(),
            PercentOf::Line(id) => named(id).map_or_else(|| id.to_string(), |line| line.label.clone()),
        }
    }
}
