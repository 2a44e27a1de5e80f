//! A query read word by word; the first word that cannot be meant ends it.

use std::ops::Range;

use plan_geometry::Area;
use plan_model::file::nearest;
use plan_model::{Choice, Exact, Length, Plan, Units};

use super::error::QueryError;
use super::number::Number;
use super::words::{Word, words};
use super::{Condition, Limits};

/// Brackets and `not` within each other; more than this is no question of a person.
const DEEPEST: usize = 64;

/// What a condition can begin with, beside choices.
const THINGS: [&str; 6] = ["bedrooms", "baths", "price", "area", "heated area", "meets the book"];
const COMPARED: [&str; 6] = ["at least", "at most", "over", "under", "exactly", "between"];

/// A query on its way.
pub(super) struct Reading<'a> {
    query: &'a str,
    plan: &'a Plan,
    words: Vec<Word>,
    next: usize,
}

type Read<T> = Result<T, QueryError>;

impl<'a> Reading<'a> {
    pub(super) fn of(query: &'a str, plan: &'a Plan) -> Self {
        Self { query, plan, words: words(query), next: 0 }
    }

    /// The query as a whole.
    pub(super) fn whole(mut self) -> Read<Condition> {
        let condition = self.joined(0)?;
        match self.peek() {
            None => Ok(condition),
            Some(")") => Err(self.wrong("this bracket closes none that was opened".to_owned())),
            Some(_) => Err(self.expected("`and` or `or`", &["and", "or"])),
        }
    }

    /// Conditions joined by one word.
    fn joined(&mut self, depth: usize) -> Read<Condition> {
        let first = self.one(depth)?;
        let Some(joint) = self.peek().filter(|word| ["and", "or"].contains(word)).map(str::to_owned) else {
            return Ok(first);
        };
        let mut list = vec![first];
        while self.takes(&joint) {
            list.push(self.one(depth)?);
        }
        if self.peek().is_some_and(|word| ["and", "or"].contains(&word)) {
            let message = "`and` and `or` stand beside each other: put brackets around what belongs together";
            return Err(self.wrong(message.to_owned()));
        }
        Ok(if joint == "and" { Condition::All(list) } else { Condition::Any(list) })
    }

    fn one(&mut self, depth: usize) -> Read<Condition> {
        if depth > DEEPEST {
            return Err(self.wrong(format!("more than {DEEPEST} brackets and `not` within each other")));
        }
        // A choice may have any name.
        let is_answer = self.words.get(self.next + 1).is_some_and(|word| word.text == "=");
        let choice =
            self.peek().and_then(|word| self.plan.choices.iter().position(|choice| choice.id.as_str() == word));
        if let Some(choice) = choice.filter(|_| is_answer || !self.is_keyword()) {
            return self.answer(choice);
        }
        let open = self.at();
        if self.takes("not") {
            return Ok(Condition::Not(Box::new(self.one(depth + 1)?)));
        }
        if self.takes("(") {
            let inner = self.joined(depth + 1)?;
            return match self.peek() {
                Some(")") => {
                    self.next += 1;
                    Ok(inner)
                }
                Some(_) => Err(self.expected("`and`, `or` or `)`", &["and", "or"])),
                None => Err(self.error(open, "this bracket is never closed".to_owned())),
            };
        }
        match self.peek() {
            Some("bedrooms" | "bedroom") => Ok(Condition::Bedrooms(self.of_thing(Self::whole_number)?)),
            Some("baths" | "bath" | "bathrooms" | "bathroom") => {
                Ok(Condition::Baths(self.of_thing(Self::whole_number)?))
            }
            Some("price") => Ok(Condition::Price(self.of_thing(Self::amount)?)),
            Some("area") => Ok(Condition::Area(self.of_area()?)),
            Some("heated") => {
                self.next += 1;
                if self.peek() == Some("area") {
                    return Ok(Condition::Area(self.of_area()?));
                }
                Err(self.expected("`area`", &["area"]))
            }
            Some("meets") => {
                self.next += 1;
                self.word("the")?;
                self.word("book")?;
                Ok(Condition::MeetsBook)
            }
            _ => {
                let choices = self.plan.choices.iter().map(|choice| choice.id.as_str());
                let names: Vec<&str> = THINGS.into_iter().chain(choices).collect();
                Err(self.expected(
                    "`bedrooms`, `baths`, `price`, `area`, CHOICE=ALTERNATE, `meets the book`, `not` or `(`",
                    &names,
                ))
            }
        }
    }

    /// Whether the next word begins a condition by itself.
    fn is_keyword(&self) -> bool {
        let words =
            ["bedrooms", "bedroom", "baths", "bath", "bathrooms", "bathroom", "price", "area", "heated", "meets"];
        self.peek().is_some_and(|word| word == "not" || words.contains(&word))
    }

    fn answer(&mut self, choice: usize) -> Read<Condition> {
        self.next += 1;
        let found: &Choice = &self.plan.choices[choice];
        let names: Vec<&str> = found.alternates.iter().map(|alternate| alternate.id.as_str()).collect();
        let listed = or_list(names.iter().map(|name| format!("`{name}`")));
        if !self.takes("=") {
            return Err(self.expected(&format!("`=` and an alternate of `{}`: {listed}", found.id), &[]));
        }
        let alternate = self.peek().and_then(|word| names.iter().position(|name| *name == word));
        let Some(alternate) = alternate else {
            return Err(self.expected(&format!("an alternate of `{}`: {listed}", found.id), &names));
        };
        self.next += 1;
        Ok(Condition::Takes(choice, alternate))
    }

    /// What a thing is compared with; `figure` reads one figure.
    fn of_thing<T: PartialOrd>(&mut self, figure: fn(&mut Self) -> Read<T>) -> Read<Limits<T>> {
        self.next += 1;
        let compared = self.compared()?;
        let at = self.at();
        let first = figure(self)?;
        Ok(match compared {
            Compared::AtLeast => Limits::AtLeast(first),
            Compared::AtMost => Limits::AtMost(first),
            Compared::Over => Limits::Over(first),
            Compared::Under => Limits::Under(first),
            Compared::Exactly => Limits::Exactly(first),
            Compared::Between => {
                self.word("and")?;
                let second = figure(self)?;
                if first > second {
                    let message = "nothing lies between these two: the smaller one comes first".to_owned();
                    return Err(self.error(at, message));
                }
                Limits::Between(first, second)
            }
        })
    }

    /// Areas; the first of two may have its unit behind the second.
    fn of_area(&mut self) -> Read<Limits<Exact>> {
        let start = self.next;
        let default = match self.plan.units {
            Units::In => Area::SQUARE_FOOT,
            Units::Mm => SQUARE_METRE,
        };
        // Read once to see the unit of the last figure, and again with that.
        let mut last = None;
        self.next += 1;
        let between = self.compared()? == Compared::Between;
        self.area_figure(&mut last, default)?;
        if between && self.takes("and") {
            self.area_figure(&mut last, default)?;
        }
        let unit = last.unwrap_or(default);
        self.next = start;
        if unit == Area::SQUARE_FOOT {
            self.of_thing(|reading| reading.area_figure(&mut None, Area::SQUARE_FOOT))
        } else {
            self.of_thing(|reading| reading.area_figure(&mut None, SQUARE_METRE))
        }
    }

    fn area_figure(&mut self, unit: &mut Option<Area>, default: Area) -> Read<Exact> {
        let number = self.number("an area, such as 1,500 sq ft")?;
        *unit = self.area_unit()?.or(*unit);
        let unit = unit.unwrap_or(default);
        Ok(Exact::new(number.digits, 10_i128.pow(number.places)) * Exact::from(unit.square_steps()))
    }

    fn area_unit(&mut self) -> Read<Option<Area>> {
        let one_word = match self.peek() {
            Some("sqft") => Some(Area::SQUARE_FOOT),
            Some("sqm") => Some(SQUARE_METRE),
            Some("sq" | "square") => None,
            _ => return Ok(None),
        };
        self.next += 1;
        if one_word.is_some() {
            return Ok(one_word);
        }
        let unit = match self.peek() {
            Some("ft" | "feet") => Area::SQUARE_FOOT,
            Some("m" | "metres" | "meters") => SQUARE_METRE,
            _ => return Err(self.expected("`ft` or `m`", &[])),
        };
        self.next += 1;
        Ok(Some(unit))
    }

    fn compared(&mut self) -> Read<Compared> {
        let compared = match self.peek() {
            Some("at") => {
                self.next += 1;
                match self.peek() {
                    Some("least") => Compared::AtLeast,
                    Some("most") => Compared::AtMost,
                    _ => return Err(self.expected("`least` or `most`", &["least", "most"])),
                }
            }
            Some("over" | "above") => Compared::Over,
            Some("under" | "below") => Compared::Under,
            Some("more") => {
                self.next += 1;
                return self.word("than").map(|()| Compared::Over);
            }
            Some("less" | "fewer") => {
                self.next += 1;
                return self.word("than").map(|()| Compared::Under);
            }
            Some("exactly" | "=") => Compared::Exactly,
            Some("between") => Compared::Between,
            _ => {
                return Err(self.expected("`at least`, `at most`, `over`, `under`, `exactly` or `between`", &COMPARED));
            }
        };
        self.next += 1;
        Ok(compared)
    }

    fn whole_number(&mut self) -> Read<usize> {
        let at = self.at();
        let number = self.number("a whole number")?;
        number.whole().ok_or_else(|| self.error(at, "expected a whole number".to_owned()))
    }

    /// An amount in the plan's currency.
    fn amount(&mut self) -> Read<Number> {
        let currency = self.plan.currency.to_lowercase();
        let sign = if currency == "usd" { "$" } else { "" };
        if let Some(word) = self.words.get_mut(self.next)
            && let Some(rest) = word.text.strip_prefix(sign)
        {
            word.text = rest.to_owned();
        }
        let number = self.number(&format!("an amount in {}, such as 250,000", self.plan.currency))?;
        self.takes(&currency);
        Ok(number)
    }

    fn number(&mut self, what: &str) -> Read<Number> {
        let number = self.peek().and_then(Number::read);
        let number = number.ok_or_else(|| self.expected(what, &[]))?;
        self.next += 1;
        Ok(number)
    }

    fn peek(&self) -> Option<&str> {
        self.words.get(self.next).map(|word| word.text.as_str())
    }

    /// Goes past the next word if it is this one.
    fn takes(&mut self, text: &str) -> bool {
        let takes = self.peek() == Some(text);
        self.next += usize::from(takes);
        takes
    }

    fn word(&mut self, text: &str) -> Read<()> {
        if self.takes(text) { Ok(()) } else { Err(self.expected(&format!("`{text}`"), &[text])) }
    }

    /// Where the next word stands; behind the last one, where there is none.
    fn at(&self) -> Range<usize> {
        let end = self.words.last().map_or(0, |word| word.at.end);
        self.words.get(self.next).map_or(end..end, |word| word.at.clone())
    }

    /// The next word is none of those that could stand there.
    fn expected(&self, what: &str, names: &[&str]) -> QueryError {
        let Some(word) = self.words.get(self.next) else {
            let ends = if self.words.is_empty() { "nothing is asked for" } else { "the query ends here" };
            return self.wrong(format!("expected {what}; {ends}"));
        };
        let text: String = self.query.chars().skip(word.at.start).take(word.at.len()).collect();
        let hint = nearest(&word.text, names.iter().copied()).map(|name| format!("; did you mean `{name}`?"));
        self.wrong(format!("expected {what}; found `{text}`{}", hint.unwrap_or_default()))
    }

    fn wrong(&self, message: String) -> QueryError {
        self.error(self.at(), message)
    }

    fn error(&self, at: Range<usize>, message: String) -> QueryError {
        QueryError::new(self.query, at, message)
    }
}

const SQUARE_METRE: Area = Area::of_rectangle(Length::from_steps(METRE), Length::from_steps(METRE));
/// In grid steps of 1/640 mm.
const METRE: i64 = 640_000;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Compared {
    AtLeast,
    AtMost,
    Over,
    Under,
    Exactly,
    Between,
}

fn or_list(names: impl Iterator<Item = String>) -> String {
    let names: Vec<String> = names.collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => names.concat(),
    }
}
