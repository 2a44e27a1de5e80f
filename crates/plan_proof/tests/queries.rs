//! Queries that cannot be read: each with its message and the carets under the word.

use plan_model::{Plan, file};
use plan_proof::Query;

const PLAN: &str = r#"{
    "mateline_plan": 1, "name": "Questions", "maker": "Test", "units": "in", "currency": "USD",
    "base_price": "100", "home": { "legal_kind": "state-label" }, "modules": [], "base": {},
    "choices": [
        { "id": "flex-room", "name": "Flex", "alternates": [
            { "id": "study", "name": "Study", "included": true }, { "id": "fourth-bedroom", "name": "Fourth" } ] },
        { "id": "price", "name": "Named as a thing is", "alternates": [
            { "id": "and", "name": "And", "included": true }, { "id": "4", "name": "Four" } ] }
    ]
}"#;

fn plan() -> Plan {
    file::read(PLAN).unwrap_or_else(|error| panic!("{error}"))
}

fn told(query: &str) -> String {
    Query::read(query, &plan()).map_or_else(|error| error.to_string(), |query| format!("read: {}", query.text()))
}

#[test]
fn the_carets_stand_under_the_word() {
    let expected = "\
column 10: expected `at least`, `at most`, `over`, `under`, `exactly` or `between`; found `atleast`; did you mean `at least`?
  bedrooms atleast 4 and baths over 1
           ^^^^^^^";
    assert_eq!(told("bedrooms atleast 4 and baths over 1"), expected);
    // A letter for a letter, whatever it is.
    let expected = "\
column 25: expected a whole number; found `vier`
  price over 3 and baths= vier
                          ^^^^";
    assert_eq!(told("price\tover\n3 and\u{a0}baths= vier"), expected);
}

#[test]
fn each_slip_is_told_with_what_was_expected() {
    let condition = "`bedrooms`, `baths`, `price`, `area`, CHOICE=ALTERNATE, `meets the book`, `not` or `(`";
    let compared = "`at least`, `at most`, `over`, `under`, `exactly` or `between`";
    for (query, column, message) in [
        ("", 1, format!("expected {condition}; nothing is asked for")),
        ("   ", 1, format!("expected {condition}; nothing is asked for")),
        ("bedroms at least 4", 1, format!("expected {condition}; found `bedroms`; did you mean `bedrooms`?")),
        ("flexroom=study", 1, format!("expected {condition}; found `flexroom`; did you mean `flex-room`?")),
        ("4 bedrooms", 1, format!("expected {condition}; found `4`")),
        ("baths over 1 and", 17, format!("expected {condition}; the query ends here")),
        ("not", 4, format!("expected {condition}; the query ends here")),
        ("bedrooms", 9, format!("expected {compared}; the query ends here")),
        ("price 250,000", 7, format!("expected {compared}; found `250,000`")),
        ("area at leest 4", 9, "expected `least` or `most`; found `leest`; did you mean `least`?".to_owned()),
        ("heated floor over 4", 8, "expected `area`; found `floor`".to_owned()),
        ("baths more then 2", 12, "expected `than`; found `then`; did you mean `than`?".to_owned()),
        ("baths over two", 12, "expected a whole number; found `two`".to_owned()),
        ("baths over 2.5", 12, "expected a whole number".to_owned()),
        ("bedrooms at least 99999999999999999999", 19, "expected a whole number; found `99999999999999999999`".to_owned()),
        ("price under 25,00", 13, "expected an amount in USD, such as 250,000; found `25,00`".to_owned()),
        ("price under €250", 13, "expected an amount in USD, such as 250,000; found `€250`".to_owned()),
        ("price under 250 EUR", 17, "expected `and` or `or`; found `EUR`".to_owned()),
        ("area over 1,500 sq yd", 20, "expected `ft` or `m`; found `yd`".to_owned()),
        ("area over big", 11, "expected an area, such as 1,500 sq ft; found `big`".to_owned()),
        ("price between 3 or 4", 17, "expected `and`; found `or`".to_owned()),
        ("price between 4 and 3", 15, "nothing lies between these two: the smaller one comes first".to_owned()),
        ("area between 3 sq m and 4 sq ft", 14, "nothing lies between these two: the smaller one comes first".to_owned()),
        ("flex-room", 10, "expected `=` and an alternate of `flex-room`: `study` or `fourth-bedroom`; the query ends here".to_owned()),
        ("flex-room is study", 11, "expected `=` and an alternate of `flex-room`: `study` or `fourth-bedroom`; found `is`".to_owned()),
        (
            "flex-room=forth-bedroom",
            11,
            "expected an alternate of `flex-room`: `study` or `fourth-bedroom`; found `forth-bedroom`; did you mean `fourth-bedroom`?".to_owned(),
        ),
        ("flex-room=", 11, "expected an alternate of `flex-room`: `study` or `fourth-bedroom`; the query ends here".to_owned()),
        ("meets the boook", 11, "expected `book`; found `boook`; did you mean `book`?".to_owned()),
        ("meets book", 7, "expected `the`; found `book`".to_owned()),
        ("baths over 1 baths under 3", 14, "expected `and` or `or`; found `baths`".to_owned()),
        ("baths over 1 adn price over 3", 14, "expected `and` or `or`; found `adn`; did you mean `and`?".to_owned()),
        ("(baths over 1", 1, "this bracket is never closed".to_owned()),
        ("(baths over 1 price over 3)", 15, "expected `and`, `or` or `)`; found `price`".to_owned()),
        ("baths over 1)", 13, "this bracket closes none that was opened".to_owned()),
        ("()", 2, format!("expected {condition}; found `)`")),
        (
            "baths over 1 and price over 3 or area over 4",
            31,
            "`and` and `or` stand beside each other: put brackets around what belongs together".to_owned(),
        ),
    ] {
        let error = Query::read(query, &plan()).expect_err(query);
        assert_eq!((error.column(), error.message()), (column, message.as_str()), "{query}");
    }
    let deep = format!("{}baths over 1", "not ".repeat(100_000));
    let error = Query::read(&deep, &plan()).expect_err("too deep");
    assert_eq!(error.message(), "more than 64 brackets and `not` within each other");
}

#[test]
fn what_people_may_write_is_read() {
    for query in [
        "Bedrooms AT LEAST 3 and Flex-Room=Study",
        "bedrooms = 3",
        "bathrooms fewer than 3 or bathrooms more than 4",
        "price between $150,000 and $175,000.50 USD",
        "price=4 and price at most 4",
        "price=and",
        "area between 1,400 and 1,500 square feet",
        "area between 130 sq m and 1,500 sqft",
        "not (not meets the book)",
        "flex-room = study and(baths over 1 or not baths = 0)",
    ] {
        assert_eq!(told(query), format!("read: {query}"));
    }
}
