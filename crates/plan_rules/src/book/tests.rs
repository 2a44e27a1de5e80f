use plan_model::{LegalKind, Length};

use super::*;
use crate::Limit;

const HEAD: &str = "mateline_rule_book = 1\nid = \"b\"\nname = \"B\"\nedition = \"1\"\nlegal_kind = \"state-label\"\n";

fn refusal(rest: &str) -> String {
    RuleBook::parse(&format!("{HEAD}{rest}")).expect_err("a faulty book is refused").to_string()
}

fn hall(fields: &str) -> String {
    refusal(&format!("[rules.hallway-width]\n{fields}\n"))
}

#[test]
fn built_in_books_are_readable_and_named_as_listed() {
    for (id, text) in shelf::BOOKS {
        let book = RuleBook::parse(text).unwrap_or_else(|error| panic!("{id}:\n{error}"));
        assert_eq!(book.facts().id, id);
        assert!(RuleBook::built_in(id).is_some());
    }
    assert!(RuleBook::built_in("irc-1921").is_none());
}

#[test]
fn every_label_has_a_book_of_its_own_and_those_for_all_homes() {
    for (kind, own, other) in
        [(LegalKind::StateLabel, "irc-2021", "hud-3280"), (LegalKind::FederalLabel, "hud-3280", "irc-2021")]
    {
        assert_eq!(RuleBook::default_for(kind).map(|book| book.facts().id.clone()).as_deref(), Some(own));
        let ids: Vec<String> = RuleBook::built_in_for(kind).map(|book| book.facts().id.clone()).collect();
        let general = ["property-maintenance", "planning-guidelines", "accessible-dwelling", "factory-limits"];
        assert_eq!(ids, [&[own], &general[..]].concat());
        assert!(RuleBook::built_in(other).is_some_and(|book| !book.is_for(kind)));
    }
}

#[test]
fn limits_are_exact_and_keep_the_order_of_the_registry() {
    let book = RuleBook::built_in("irc-2021").expect("it is built in");
    let ids: Vec<&str> = book.rules().iter().map(|rule| rule.rule.id).collect();
    let in_order: Vec<&str> = registry().map(|rule| rule.id).filter(|id| ids.contains(id)).collect();
    assert_eq!(ids, in_order);
    let area = book.rule("egress-area").expect("the book has it");
    assert_eq!(area.limit("area"), Limit::parse("820.8 sq in").ok());
    assert_eq!(area.section.as_deref(), Some("R310.2.1"));
    let sill = book.rule("egress-sill").expect("the book has it");
    assert_eq!(sill.limit("sill"), Some(Limit::Length(crate::rule::exact(Length::inches(44)))));
}

#[test]
fn a_rule_that_is_left_out_is_not_judged() {
    let text = format!("{HEAD}[rules.room-closes]\nlevel = \"required\"\n");
    let book = RuleBook::parse(&text).expect("a book may hold one rule");
    assert_eq!(book.rules().len(), 1);
    assert!(book.rule("hallway-width").is_none());
}

#[test]
fn unknown_names_get_the_nearest_known_one() {
    assert_eq!(
        refusal("[rules.halway-width]\nlevel = \"required\"\n"),
        "line 6, column 8: rules: there is no rule `halway-width`; did you mean `hallway-width`?"
    );
    assert_eq!(
        hall("level = \"required\"\nrooms = [\"hal\"]\nwidth = \"36 in\""),
        "line 8, column 10: rules.hallway-width: `rooms` cannot be `hal`; did you mean `hall`?"
    );
    assert_eq!(
        hall("level = \"required\"\nrooms = [\"hall\"]\nwidht = \"36 in\""),
        "line 9, column 1: rules.hallway-width: unknown field `widht`; did you mean `width`?"
    );
    assert_eq!(
        hall("level = \"requird\"\nrooms = [\"hall\"]\nwidth = \"36 in\""),
        "line 7, column 9: rules.hallway-width: `level` cannot be `requird`; did you mean `required`?"
    );
    let heights = "[rules.ceiling-height]\nlevel = \"required\"\n[rules.ceiling-height.heights]\nbedrom = \"7 ft\"\n";
    assert_eq!(
        refusal(heights),
        "line 9, column 1: rules.ceiling-height.heights: `bedrom` is no use of a room; did you mean `bedroom`?"
    );
}

#[test]
fn limits_of_the_wrong_kind_missing_or_twice_are_told_with_their_place() {
    assert_eq!(
        hall("level = \"required\"\nrooms = [\"hall\"]\nwidth = \"36 sq ft\""),
        "line 9, column 9: rules.hallway-width: `width` is a length such as \"7 ft\" or \"36 in\", not an area"
    );
    assert_eq!(
        hall("level = \"required\"\nrooms = [\"hall\"]"),
        "line 6, column 1: rules.hallway-width: `width` is missing"
    );
    assert_eq!(
        hall("level = \"required\"\nrooms = [\"hall\"]\nwidth = 36"),
        "line 9, column 9: rules.hallway-width: `width` is text in quotation marks, not a bare number"
    );
    assert!(hall("level = \"required\"\nrooms = [\"hall\"]\nwidth = \"36\"").contains("has no unit"));
    assert!(hall("level = \"required\"\nrooms = []\nwidth = \"36 in\"").contains("`rooms` is empty"));
    let twice = "[rules.room-closes]\nlevel = \"required\"\n[rules.room-closes]\nlevel = \"required\"\n";
    assert!(refusal(twice).contains("`room-closes` stands twice"), "{}", refusal(twice));
}

#[test]
fn limits_that_ask_for_nothing_or_too_much_are_refused() {
    let message = hall("level = \"required\"\nrooms = [\"hall\"]\nwidth = \"0 in\"");
    let place = "line 9, column 9: rules.hallway-width: ";
    assert_eq!(message, format!("{place}`width` cannot be 0; a rule that asks for nothing is left out of the book"));
    let (_, text) = shelf::BOOKS[0];
    for share in ["101 %", "0 %", "0 sq ft", "0 ft"] {
        let text = text.replacen("id = \"irc-2021\"", "id = \"b\"", 1).replacen("\"50 %\"", &format!("\"{share}\""), 1);
        assert!(RuleBook::parse(&text).is_err(), "{share}");
    }
}

#[test]
fn the_id_of_a_built_in_book_belongs_to_its_text() {
    let (id, text) = shelf::BOOKS[0];
    assert!(RuleBook::parse(text).is_ok() && RuleBook::parse(&text.replace('\n', "\r\n")).is_ok());
    let message = RuleBook::parse(&text.replacen("\"36 in\"", "\"30 in\"", 1)).expect_err("another text").to_string();
    let expected = format!("`{id}` is the id of a built-in book with other content; give this one an id of its own");
    assert!(message.ends_with(&expected), "{message}");
}

#[test]
fn a_book_says_where_its_text_came_from_and_what_it_was() {
    let built_in = RuleBook::built_in("irc-2021").expect("it is built in");
    assert_eq!((&built_in.facts().source, built_in.facts().digest.len()), (&BookSource::BuiltIn, 64));
    let text = format!("{HEAD}[rules.room-closes]\nlevel = \"required\"\n");
    let read = |text: &str| RuleBook::parse(text).expect("a readable book");
    let book = read(&text).found_at(BookSource::File("books/b.toml".into()));
    assert_eq!(book.facts().source.to_string(), "books/b.toml");
    assert_eq!(book.facts().digest, read(&text).facts().digest);
    assert_ne!(book.facts().digest, read(&format!("{text}# amended\n")).facts().digest);
}

#[test]
fn control_characters_are_refused_and_never_printed() {
    let message = refusal("note = \"a\\u001b[31mb\"\n[rules.room-closes]\nlevel = \"required\"\n");
    assert_eq!(message, "line 6, column 8: `note` holds the control character \\u{1b}");
    let message = refusal("\"a\\u001b[31mb\" = 1\n[rules.room-closes]\nlevel = \"required\"\n");
    assert!(message.contains("unknown field `a\\u{1b}[31mb`"), "{message}");
}

#[test]
fn a_clause_that_is_judged_names_the_rules_that_do_it() {
    let clause = |fields: &str| {
        refusal(&format!(
            "[rules.room-closes]\nlevel = \"required\"\n[[clauses]]\nsection = \"R1\"\nsubject = \"s\"\n{fields}\n"
        ))
    };
    assert_eq!(clause("status = \"judged\""), "line 8, column 1: clauses: `rules` is missing");
    assert_eq!(
        clause("status = \"partly\"\nrules = [\"room-close\"]"),
        "line 12, column 10: clauses: there is no rule `room-close`; did you mean `room-closes`?"
    );
    assert!(clause("status = \"not-judged\"\nrules = [\"room-closes\"]").contains("unknown field `rules`"));
}

#[test]
fn the_number_of_a_section_is_as_sure_everywhere() {
    let book = RuleBook::built_in("irc-2021").expect("it is built in");
    for rule in book.rules() {
        let clauses = book.facts().clauses.iter().filter(|clause| Some(&clause.section) == rule.section.as_ref());
        assert!(clauses.clone().all(|clause| Some(clause.confidence) == rule.confidence), "{}", rule.rule.id);
        assert_eq!(clauses.count(), usize::from(rule.section.is_some()), "{}", rule.rule.id);
    }
}

#[test]
fn a_section_comes_with_its_confidence_and_a_clause() {
    let told = hall("level = \"required\"\nsection = \"R1\"\nrooms = [\"hall\"]\nwidth = \"36 in\"");
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!(lines[0], "line 6, column 1: rules.hallway-width: `confidence` is missing");
    assert!(lines[1].contains("no entry of [[clauses]] names the rule"), "{told}");
}

#[test]
fn ids_are_plain() {
    for id in ["irc-2021 ", "IRC-2021", "irc 2021!", ""] {
        let text = HEAD.replacen("id = \"b\"", &format!("id = \"{id}\""), 1);
        let told =
            RuleBook::parse(&format!("{text}[rules.room-closes]\nlevel = \"required\"\n")).expect_err(id).to_string();
        assert!(told.contains("small letters, digits, hyphens and points"), "{told}");
    }
}

#[test]
fn all_faults_are_told_at_once_and_each_once() {
    let text = "mateline_rule_book = 2\nid = \"b\"\nname = \"B\"\nedition = \"1\"\nlegal_kind = \"statelabel\"\n\
                [rules.egress-width]\nlevel = \"required\"\nrooms = [\"bedroom\"]\nwidth = \"20 sq in\"\n\
                [rules.egress-sill]\nlevel = \"required\"\nrooms = [\"bedroom\"]\nsill = \"44\"\n";
    let problems = RuleBook::parse(text).expect_err("four faults").problems;
    let lines: Vec<_> = problems.iter().map(|problem| problem.place.map(|(line, _)| line)).collect();
    assert_eq!(lines, [Some(1), Some(5), Some(9), Some(13)]);
}

#[test]
fn text_that_is_no_toml_is_told_with_its_place() {
    let problem = RuleBook::parse("id = \"b").expect_err("the quotation does not end").problems.remove(0);
    assert_eq!(problem.place.map(|(line, _)| line), Some(1));
    assert!(RuleBook::parse("").is_err());
}

#[test]
fn a_damaged_book_is_refused_or_read_and_never_breaks() {
    let (_, text) = shelf::BOOKS[0];
    let lines: Vec<&str> = text.lines().collect();
    for (index, line) in lines.iter().enumerate() {
        let (before, after) = (lines[..index].join("\n"), lines[index + 1..].join("\n"));
        let halves = line.split_at_checked(line.len() / 2).unwrap_or((line, ""));
        for damaged in ["", halves.0, halves.1, &line.replace('"', ""), &line.replace(" = ", " = 999999999")] {
            if let Err(error) = RuleBook::parse(&format!("{before}\n{damaged}\n{after}")) {
                assert!(!error.problems.is_empty() && !error.to_string().is_empty());
            }
        }
    }
}
