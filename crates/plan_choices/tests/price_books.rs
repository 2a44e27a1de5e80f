//! Price books over a small home: amounts reckoned by hand, days on which a book holds, and the sum of the lines.

use plan_choices::{LineBasis, Quote, QuoteError, quote, quote_json, quote_text};
use plan_geometry::derive;
use plan_model::file::{read, with_prices};
use plan_model::{Date, Money, Plan, Selection};
use proptest::prelude::*;

/// A cabin of 10 ft by 8 ft outside, all heated: 80 sq ft, 3.048 m x 2.4384 m = 7.4322432 sq m. It has a door, a cased opening,
/// two windows (three with the sunroom), two bedrooms and a bath in one space, and three fixtures, one of them a toilet.
fn cabin() -> Plan {
    let text = r#"{
        "mateline_plan": 1, "name": "Cabin", "maker": "Test", "units": "in", "currency": "USD", "base_price": "40000",
        "home": { "legal_kind": "state-label" },
        "modules": [ { "id": "half-a", "name": "A", "from": [0, 0], "to": [60, 96] },
                     { "id": "half-b", "name": "B", "from": [60, 0], "to": [120, 96] } ],
        "catalogue": {
            "doors": [ { "id": "entry", "operation": "hinged", "width": 36, "height": 80 },
                       { "id": "cased", "operation": "cased-opening", "width": 36, "height": 80 } ],
            "windows": [ { "id": "fixed", "operation": "fixed", "width": 20, "height": 20, "head": 80 } ] },
        "base": {
            "walls": [
                { "id": "front", "kind": "exterior", "from": [0, 0], "to": [120, 0], "thickness": 6, "placed_by": "right-face" },
                { "id": "right", "kind": "exterior", "from": [120, 0], "to": [120, 96], "thickness": 6, "placed_by": "right-face" },
                { "id": "back", "kind": "exterior", "from": [120, 96], "to": [0, 96], "thickness": 6, "placed_by": "right-face" },
                { "id": "left", "kind": "exterior", "from": [0, 96], "to": [0, 0], "thickness": 6, "placed_by": "right-face" },
                { "id": "middle", "kind": "partition", "from": [60, 6], "to": [60, 90], "thickness": 4 } ],
            "doors": [ { "id": "d-1", "unit": "entry", "wall": "front", "at": 12, "hinge": "near", "swing": "left" },
                       { "id": "d-2", "unit": "cased", "wall": "middle", "at": 20 } ],
            "windows": [ { "id": "w-1", "unit": "fixed", "wall": "right", "at": 20 },
                         { "id": "w-2", "unit": "fixed", "wall": "left", "at": 20 } ],
            "rooms": [ { "id": "bed-1", "name": "Bedroom", "use": "bedroom", "at": [30, 48] },
                       { "id": "bed-2", "name": "Bedroom 2", "use": "bedroom", "at": [90, 48] } ],
            "fixtures": [ { "id": "f-1", "kind": "toilet", "at": [90, 90], "faces": "down", "width": 20, "depth": 28 },
                          { "id": "f-2", "kind": "shelves", "at": [30, 90], "faces": "down", "width": 20, "depth": 12 } ] },
        "choices": [
            { "id": "light", "name": "Light", "alternates": [
                { "id": "two", "name": "Two windows", "included": true },
                { "id": "three", "name": "Three windows", "price": "1234.56", "brings": {
                    "windows": [ { "id": "w-3", "unit": "fixed", "wall": "back", "at": 20 } ] } } ] },
            { "id": "roof", "name": "Roof", "alternates": [
                { "id": "shingle", "name": "Shingles", "included": true },
                { "id": "metal", "name": "Metal", "price": "-250.10" } ] } ]
    }"#;
    read(text).unwrap_or_else(|error| panic!("{error}"))
}

/// A book that says nothing but its lines.
fn book(lines: &str) -> String {
    format!(
        r#"{{ "mateline_prices": 1, "name": "Test book", "currency": "USD", "effective": "2026-01-01", "lines": [{lines}] }}"#
    )
}

fn date(text: &str) -> Date {
    text.parse().unwrap_or_else(|error| panic!("{error}"))
}

fn selected(plan: &Plan, answers: &[&str]) -> Selection {
    answers.iter().fold(Selection::included(plan), |selection, answer| {
        let answer = answer.parse().unwrap_or_else(|error| panic!("{error}"));
        selection.with(plan, &answer).unwrap_or_else(|error| panic!("{error}"))
    })
}

fn quote_of(plan: &Plan, answers: &[&str], day: &str) -> Result<Quote, QuoteError> {
    let selection = selected(plan, answers);
    let home = plan.home(&selection);
    quote(&home, &derive(&home), &selection, date(day))
}

/// The amounts of a book's lines over the cabin with three windows and a metal roof, then the total.
fn amounts(lines: &str) -> Vec<String> {
    let plan = with_prices(&cabin(), &book(lines)).unwrap_or_else(|error| panic!("{error}"));
    let quote = quote_of(&plan, &["light=three", "roof=metal"], "2026-02-01").unwrap_or_else(|error| panic!("{error}"));
    let lines = quote.arithmetic.lines.iter().map(|line| line.amount);
    lines.skip(3).chain([quote.arithmetic.total]).map(|amount| format!("{amount:.2}")).collect()
}

/// Reckoned by hand: 40,000 + 1,234.56 - 250.10 = 40,984.46 without a line.
#[test]
fn base_and_options_without_a_book() {
    assert_eq!(amounts(""), ["40,984.46"]);
}

/// Reckoned by hand, each added to 40,984.46.
#[test]
fn lines_by_what_the_home_holds() {
    let cases = [
        // 80 sq ft at 1.0625.
        (r#""each": "1.0625", "per": "heated-square-foot""#, "85.00", "41,069.46"),
        // 7.4322432 sq m are told as 7.43; at 10.50 that is 78.015, halfway between cents, and goes up.
        (r#""each": "10.50", "per": "heated-square-metre""#, "78.02", "41,062.48"),
        (r#""each": "4150", "per": "module""#, "8,300.00", "49,284.46"),
        (r#""each": "189", "per": { "rooms": "bedroom" }"#, "378.00", "41,362.46"),
        (r#""each": "189", "per": { "rooms": "bath" }"#, "0.00", "40,984.46"),
        // Two of the base and one of the alternate: 3 x 64.335 = 193.005, halfway, and goes up.
        (r#""each": "64.335", "per": { "elements": "windows" }"#, "193.01", "41,177.47"),
        (r#""each": "7", "per": { "elements": "doors" }"#, "7.00", "40,991.46"),
        (r#""each": "7", "per": { "elements": "cased-openings" }"#, "7.00", "40,991.46"),
        (r#""each": "7", "per": { "elements": "fixtures" }"#, "14.00", "40,998.46"),
        (r#""each": "7", "per": { "fixtures": "toilet" }"#, "7.00", "40,991.46"),
        (r#""amount": "3200.05""#, "3,200.05", "44,184.51"),
    ];
    for (basis, amount, total) in cases {
        let line = format!(r#"{{ "id": "it", "name": "It", "kind": "charge", {basis} }}"#);
        assert_eq!(amounts(&line), [amount, total], "{basis}");
    }
}

/// Reckoned by hand, in the order of the lines: freight 2 x 4,150 = 8,300; a credit of 1.5 % of base and options, 40,984.46, is
/// 614.7669, told as 614.77; tax of 6.25 % of base, options and the credit, 40,369.69, is 2,523.105625, told as 2,523.11; the
/// fee of 1 % of all of that, 40,984.46 + 8,300 - 614.77 + 2,523.11 = 51,192.80, is 511.928, told as 511.93. Sum 51,704.73.
#[test]
fn percentages_are_of_lines_as_rounded_in_their_order() {
    let lines = r#"
        { "id": "freight", "name": "Freight", "kind": "freight", "each": "4150", "per": "module" },
        { "id": "friend", "name": "Friend's credit", "kind": "credit", "percent": "-1.5", "of": ["base", "options"] },
        { "id": "tax", "name": "Sales tax", "kind": "tax", "percent": "6.25", "of": ["base", "options", "friend"] },
        { "id": "fee", "name": "Fee", "kind": "charge", "percent": "1", "of": ["subtotal"] }"#;
    assert_eq!(amounts(lines), ["8,300.00", "-614.77", "2,523.11", "511.93", "51,704.73"]);
}

/// Reckoned by hand: half a cent below nothing goes away from it. 0.1 % of -250.10 + 1,234.56 = 984.46 is 0.98446; a credit of
/// 50 % of a charge of 0.01 is 0.005, told as 0.01.
#[test]
fn halves_of_a_credit_go_away_from_zero() {
    let lines = r#"
        { "id": "cent", "name": "Cent", "kind": "charge", "amount": "0.01" },
        { "id": "half", "name": "Half", "kind": "credit", "percent": "-50", "of": ["cent"] },
        { "id": "more", "name": "More", "kind": "charge", "percent": "0.1", "of": ["options"] }"#;
    assert_eq!(amounts(lines), ["0.01", "-0.01", "0.98", "40,985.44"]);
}

/// Reckoned by hand: in yen nothing is smaller than one. 5 % of 4,009 is 200.45, told as 200.
#[test]
fn amounts_have_the_places_of_their_currency() {
    let mut plan = cabin();
    plan.currency = "JPY".to_owned();
    plan.base_price = Money::from(4_009);
    let text = book(r#"{ "id": "tax", "name": "Tax", "kind": "tax", "percent": "5", "of": ["base"] }"#);
    let plan = with_prices(&plan, &text.replace("USD", "JPY")).unwrap_or_else(|error| panic!("{error}"));
    let quote = quote_of(&plan, &[], "2026-02-01").unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((quote.arithmetic.total, quote.arithmetic.places), (Money::from(4_209), 0));
    let selection = Selection::included(&plan);
    let text = quote_text(&plan.home(&selection), &selection, &quote);
    assert!(text.contains("  Tax         5 % of 4,009 (base price)    200\n"), "{text}");
}

#[test]
fn a_book_laid_over_a_plan_takes_the_place_of_what_it_names_and_of_nothing_else() {
    let own = cabin();
    let text = book("").replace(
        "\"lines\"",
        r#""base": "39000", "alternates": [ { "alternate": "roof=metal", "price": "125" } ], "lines""#,
    );
    let plan = with_prices(&own, &text).unwrap_or_else(|error| panic!("{error}"));
    // Reckoned by hand: 39,000 + 1,234.56 + 125.
    let quote = quote_of(&plan, &["light=three", "roof=metal"], "2026-02-01").unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(quote.arithmetic.total.to_string(), "40,359.56");
    // What comes of it is a plan that can be written and read, with each price where a plan holds it.
    let again = read(&plan_model::file::write(&plan)).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(again, plan);
    let geometry = |plan: &Plan| (plan.base.clone(), plan.modules.clone(), plan.catalogue.clone());
    assert_eq!(geometry(&plan), geometry(&own));
}

/// Counted on a calendar: 91 days after the first of March are the 31st of May; 45 after the 10th of March the 24th of April.
#[test]
fn a_book_holds_from_its_first_day_to_its_last() {
    let text = book("").replace("2026-01-01\"", r#"2026-03-01", "expires": { "after-days": 91 }, "quote_days": 45"#);
    let plan = with_prices(&cabin(), &text).unwrap_or_else(|error| panic!("{error}"));
    let good_until = |day: &str| quote_of(&plan, &[], day).map(|quote| quote.good_until.map(|day| day.to_string()));
    assert_eq!(good_until("2026-03-10"), Ok(Some("2026-04-24".to_owned())));
    assert_eq!(good_until("2026-03-01"), Ok(Some("2026-04-15".to_owned())));
    // Never beyond the last day of the book.
    assert_eq!(good_until("2026-05-31"), Ok(Some("2026-05-31".to_owned())));
    let told = |day: &str| quote_of(&plan, &[], day).map_err(|error| error.to_string()).map(|_| ());
    let not_yet =
        "the price book \"Test book\" is not effective before 2026-03-01; the date of the quote is 2026-02-28";
    assert_eq!(told("2026-02-28"), Err(not_yet.to_owned()));
    let expired = "the price book \"Test book\" expired on 2026-05-31; the date of the quote is 2026-06-01";
    assert_eq!(told("2026-06-01"), Err(expired.to_owned()));
    let on = with_prices(&cabin(), &text.replace(r#""after-days": 91"#, r#""on": "2026-05-31""#));
    assert_eq!(on.ok().and_then(|plan| plan.prices?.last_day()), Some(date("2026-05-31")));
}

/// A space that no room's point lies in.
#[test]
fn what_goes_by_an_area_that_is_unknown_has_no_price() {
    let text =
        book(r#"{ "id": "paint", "name": "Paint", "kind": "charge", "each": "1", "per": "heated-square-foot" }"#);
    let mut plan = with_prices(&cabin(), &text).unwrap_or_else(|error| panic!("{error}"));
    plan.base.rooms.pop();
    let told = quote_of(&plan, &[], "2026-02-01").expect_err("a space without a name").to_string();
    assert_eq!(
        told,
        "the line \"Paint\" goes by the heated area, which is unknown: not every space is a room that closes"
    );
}

#[test]
fn the_largest_amounts_stay_exact() {
    let nines = "999999999999999999";
    let line = format!(r#"{{ "id": "it", "name": "It", "kind": "charge", "each": "{nines}", "per": "module" }}"#);
    let twice = format!("{line}, {}", line.replace("\"it\"", "\"that\""));
    // Reckoned by hand: 4 x 999,999,999,999,999,999 + 40,984.46.
    assert_eq!(amounts(&twice).last().map(String::as_str), Some("4,000,000,000,000,040,980.46"));
}

#[test]
fn json_holds_every_line_and_the_same_total() {
    let lines = r#"{ "id": "tax", "name": "Tax", "kind": "tax", "percent": "6.25", "of": ["base", "options"] }"#;
    let plan = with_prices(&cabin(), &book(lines)).unwrap_or_else(|error| panic!("{error}"));
    let quote = quote_of(&plan, &["roof=metal"], "2026-02-01").unwrap_or_else(|error| panic!("{error}"));
    let selection = selected(&plan, &["roof=metal"]);
    let json = quote_json(&plan.home(&selection), &selection, &quote);
    let report: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    // Reckoned by hand: 6.25 % of 39,749.90 is 2,484.36875.
    assert_eq!(report["lines"][2]["amount"], "2484.37");
    assert_eq!(report["lines"][2]["basis"]["percent"]["sum"], "39749.90");
    assert_eq!(report["lines"][1]["of"]["alternate"], "roof=metal");
    assert_eq!((&report["base_and_options"], &report["total"]), (&"39749.90".into(), &"42234.27".into()));
}

/// Every fault of a price book with its place and a part of what is told.
#[test]
fn faults_are_told_with_their_places_and_nothing_is_taken() {
    let line = |rest: &str| format!(r#"{{ "id": "it", "name": "It", {rest} }}"#);
    let tax = |of: &str| line(&format!(r#""kind": "tax", "percent": "5", "of": [{of}]"#));
    let head = |instead: &str| book("").replacen("\"lines\"", &format!("{instead}, \"lines\""), 1);
    let alternate = |name: &str, price: &str| {
        head(&format!(r#""alternates": [ {{ "alternate": "{name}", "price": "{price}" }} ]"#))
    };
    let cases: Vec<(String, &[&str])> = vec![
        (book("").replace("USD", "CAD"), &["currency: expected the plan's currency, USD, not CAD"]),
        (book("").replace(": 1,", ": 2,"), &["mateline_prices: this program reads version 1 of the price book, not 2"]),
        (book("").replace("2026-01-01", "2026-02-30"), &["effective: `2026-02-30` is not a day of the calendar"]),
        (head(r#""expires": { "on": "2025-12-31" }"#), &["expires: expires on 2025-12-31, before it is effective"]),
        (head(r#""expires": { "after-days": 0 }"#), &["expires: expected from 1 to 3650 days"]),
        (head(r#""quote_days": 4000"#), &["quote_days: expected from 1 to 3650 days"]),
        (head(r#""expire": { "after-days": 9 }"#), &["unknown field `expire`; did you mean `expires`?"]),
        (head(r#""base": "1.005""#), &["base: amounts in USD have at most 2 decimal places"]),
        (head(r#""base": 40000"#), &["base: invalid type: integer `40000`"]),
        (alternate("rof=metal", "1"), &["alternates[0].alternate: ", "did you mean `roof`?"]),
        (alternate("roof=metl", "1"), &["alternates[0].alternate: ", "did you mean `metal`?"]),
        (alternate("roof=metal", "1.001"), &["alternates[0].price: amounts in USD"]),
        (
            book(&line(r#""kind": "charge", "percent": "-5", "of": ["base"]"#)),
            &["lines[0].percent (\"it\"): only a credit"],
        ),
        (
            book(&line(r#""kind": "credit", "percent": "5", "of": ["base"]"#)),
            &["lines[0].percent", "expected a negative"],
        ),
        (book(&line(r#""kind": "credit", "percent": "-101", "of": ["base"]"#)), &["lines[0].percent", "at most 100"]),
        (book(&line(r#""kind": "credit", "amount": "5""#)), &["lines[0].amount", "expected a negative amount"]),
        (book(&line(r#""kind": "charge", "amount": "-5""#)), &["lines[0].amount", "only a credit takes off"]),
        (book(&line(r#""kind": "charge", "each": "-5", "per": "module""#)), &["lines[0].each", "only a credit"]),
        (book(&line(r#""kind": "tax", "amount": "5""#)), &["lines[0] (\"it\"): a tax is a percentage"]),
        (book(&line(r#""kind": "charge", "each": "5""#)), &["lines[0]: the line \"it\" has either `amount`"]),
        (book(&line(r#""kind": "charge", "amount": "5", "of": ["base"]"#)), &["lines[0]: the line \"it\" has either"]),
        (book(&line(r#""kind": "charg", "amount": "5""#)), &["lines[0].kind", "did you mean `charge`?"]),
        (book(&line(r#""kind": "charge", "each": "5", "per": { "rooms": "bedrom" }"#)), &["did you mean `bedroom`?"]),
        (book(&line(r#""kind": "tax", "percent": "5 %", "of": ["base"]"#)), &["`5 %` is not a percentage"]),
        (book(&tax("")), &["lines[0].of", "expected what the percentage is of"]),
        (book(&tax(r#""option""#)), &["lines[0].of[0]", "there is no line \"option\"; did you mean \"options\"?"]),
        (book(&tax(r#""it""#)), &["lines[0].of[0]", "the line \"it\" is not above this one"]),
        (book(&tax(r#""base", "base""#)), &["lines[0].of[1]", "`base` would be counted twice"]),
        (book(&tax(r#""subtotal", "base""#)), &["lines[0].of", "it stands alone"]),
        (book(&tax(r#""base""#).replace("\"it\"", "\"options\"")), &["lines[0].id", "no line is called base, options"]),
        (book(&format!("{0}, {0}", tax(r#""base""#))), &["lines[1].id", "the id \"it\" is taken by lines[0]"]),
    ];
    for (text, parts) in cases {
        let told = with_prices(&cabin(), &text).expect_err(&text).to_string();
        assert!(told.starts_with("line 1, column "), "{told}");
        assert!(parts.iter().all(|part| told.contains(part)), "{told}\n{text}");
    }
}

#[test]
fn a_fault_is_told_at_the_start_of_the_line_that_has_it() {
    let text = book("\n{ \"id\": \"it\",\n\"name\": \"It\",\n\"kind\": \"charge\" }\n");
    let told = with_prices(&cabin(), &text).expect_err("a line without a basis").to_string();
    assert!(told.starts_with("line 2, column 1: lines[0]: the line \"it\" has either"), "{told}");
}

#[test]
fn every_fault_is_told_at_once() {
    let lines = r#"
        { "id": "a", "name": "A", "kind": "charge", "amount": "-1" },
        { "id": "b", "name": "B", "kind": "tax", "percent": "7", "of": ["c"] }"#;
    let problems = with_prices(&cabin(), &book(lines).replace("USD", "CAD")).expect_err("three faults").problems;
    let paths: Vec<&str> = problems.iter().map(|problem| problem.path.as_str()).collect();
    assert_eq!(paths, ["currency", "lines[0].amount", "lines[1].of[0]"]);
}

/// In a plan each price stands in one place.
#[test]
fn a_book_in_a_plan_names_no_price_that_the_plan_has_already() {
    let lines = r#"{ "id": "a", "name": "A", "kind": "charge", "amount": "-1" }"#;
    let own = book(lines).replace("\"lines\"", "\"base\": \"1\", \"lines\"");
    let whole = plan_model::file::write(&cabin()).replace("\"home\":", &format!("\"prices\": {own}, \"home\":"));
    let problems = read(&whole).expect_err("two faults").problems;
    let paths: Vec<&str> = problems.iter().map(|problem| problem.path.as_str()).collect();
    assert_eq!(paths, ["prices.base", "prices.lines[0].amount"]);
}

/// An amount with up to four places for an each, two else.
fn amount(places: u32) -> impl Strategy<Value = String> {
    (0_i64..10_000_000_000, 0..=places).prop_map(|(digits, places)| {
        let power = 10_i64.pow(places);
        if places == 0 {
            digits.to_string()
        } else {
            format!("{}.{:0w$}", digits / power, digits % power, w = places as usize)
        }
    })
}

/// What is between `kind` and the end of a line, given how many lines stand above it.
fn basis(above: usize) -> impl Strategy<Value = String> {
    let of = (0..above + 3).prop_map(move |index| match index {
        0 => "base".to_owned(),
        1 => "options".to_owned(),
        2 => "subtotal".to_owned(),
        line => format!("line-{}", line - 3),
    });
    let per = prop_oneof![
        Just(r#""heated-square-foot""#),
        Just(r#""heated-square-metre""#),
        Just(r#""module""#),
        Just(r#"{ "rooms": "bedroom" }"#),
        Just(r#"{ "elements": "windows" }"#)
    ];
    prop_oneof![
        amount(2).prop_map(|amount| format!(r#""kind": "allowance", "amount": "{amount}""#)),
        (amount(4), per).prop_map(|(each, per)| format!(r#""kind": "charge", "each": "{each}", "per": {per}"#)),
        (1_u32..=1_000_000, of.clone()).prop_map(|(parts, of)| {
            format!(r#""kind": "credit", "percent": "-{}.{:04}", "of": ["{of}"]"#, parts / 10_000, parts % 10_000)
        }),
        (1_u32..=1_000_000, of).prop_map(|(parts, of)| {
            format!(r#""kind": "tax", "percent": "{}.{:04}", "of": ["{of}"]"#, parts / 10_000, parts % 10_000)
        }),
    ]
}

fn lines() -> impl Strategy<Value = String> {
    let line = |index: usize| {
        basis(index).prop_map(move |basis| format!(r#"{{ "id": "line-{index}", "name": "Line {index}", {basis} }}"#))
    };
    (0_usize..9).prop_flat_map(move |count| (0..count).map(line).collect::<Vec<_>>()).prop_map(|lines| lines.join(", "))
}

/// Cents in the last column of a row, or of text such as `-1,234.50`.
fn cents(shown: &str) -> i128 {
    let digits: String = shown.chars().filter(|c| c.is_ascii_digit() || *c == '-').collect();
    digits.parse().unwrap_or_else(|_| panic!("`{shown}` is no amount"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, ..ProptestConfig::default() })]

    /// The amounts as they are printed, in text and in JSON, add up to the total as it is printed, in whole cents; and each is
    /// within half a cent of what its own arithmetic says.
    #[test]
    fn the_sum_of_the_shown_lines_is_the_total(
        lines in lines(), three in any::<bool>(), metal in any::<bool>(), base in amount(2),
    ) {
        let text = book(&lines).replace("\"lines\"", &format!("\"base\": \"{base}\", \"lines\""));
        let plan = with_prices(&cabin(), &text).unwrap_or_else(|error| panic!("{error}\n{text}"));
        let answers: Vec<&str> =
            [(three, "light=three"), (metal, "roof=metal")].iter().filter(|(taken, _)| *taken).map(|(_, it)| *it).collect();
        let quote = quote_of(&plan, &answers, "2026-02-01").unwrap_or_else(|error| panic!("{error}"));
        let selection = selected(&plan, &answers);
        let home = plan.home(&selection);

        let printed = quote_text(&home, &selection, &quote);
        let ends = printed.lines().filter(|line| line.starts_with("  ")).filter_map(|line| line.split("  ").last());
        let mut amounts: Vec<i128> = ends.filter(|end| end.trim().ends_with(|c: char| c.is_ascii_digit()) && end.contains('.')).map(cents).collect();
        let total = amounts.pop().unwrap_or_default();
        prop_assert_eq!(amounts.len(), quote.arithmetic.lines.len(), "{}", printed);
        prop_assert_eq!(amounts.iter().sum::<i128>(), total, "{}", printed);

        let report: serde_json::Value = serde_json::from_str(&quote_json(&home, &selection, &quote)).expect("JSON");
        let of = |value: &serde_json::Value| cents(value.as_str().unwrap_or_default());
        let listed: Vec<i128> = report["lines"].as_array().into_iter().flatten().map(|line| of(&line["amount"])).collect();
        prop_assert_eq!(&listed, &amounts);
        prop_assert_eq!(of(&report["total"]), total);

        for line in &quote.arithmetic.lines {
            // In millionths of a cent: amounts have at most four places, counts two, factors six.
            let (units, scale) = match &line.basis {
                LineBasis::Stated => continue,
                LineBasis::Each { count, price, .. } => {
                    let price = price.amount();
                    (price.mantissa() * count.mantissa(), price.scale() + count.scale())
                }
                LineBasis::Percent { percent, sum, .. } => {
                    let (sum, factor) = (sum.amount(), percent.factor());
                    (sum.mantissa() * factor.mantissa(), sum.scale() + factor.scale())
                }
            };
            let exact = units * 10_i128.pow(8 - scale);
            let shown = line.amount.amount().mantissa() * 1_000_000;
            prop_assert!((shown - exact).abs() <= 500_000, "{:?}", line);
        }
    }

    #[test]
    fn books_read_back_as_they_were_written(lines in lines()) {
        let plan = with_prices(&cabin(), &book(&lines)).unwrap_or_else(|error| panic!("{error}"));
        let again = read(&plan_model::file::write(&plan)).unwrap_or_else(|error| panic!("{error}"));
        prop_assert_eq!(again, plan);
    }
}
