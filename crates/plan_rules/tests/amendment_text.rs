//! The text of an amendment that is written says exactly what was asked for, and nothing else.

use std::collections::BTreeMap;

use plan_rules::{AmendmentDraft, Changed, Level, Limit, RuleBook, RuleDraft, WrittenLimit};

fn draft(amends: &str) -> AmendmentDraft {
    AmendmentDraft {
        name: "Town of Alder, 2026".into(),
        amends: amends.into(),
        authority: "Town of Alder".into(),
        date: "2026-07-01".into(),
        reason: "A test.".into(),
        rules: BTreeMap::new(),
    }
}

fn books() -> impl Iterator<Item = RuleBook> {
    RuleBook::built_in_ids().chain(RuleBook::example_ids()).filter_map(RuleBook::built_in)
}

fn name_of(book: &RuleBook) -> String {
    let facts = book.facts();
    facts.amendments.last().map_or_else(|| facts.id.clone(), |amendment| amendment.id.clone())
}

/// Another figure of the same measure.
fn another(limit: Limit) -> WrittenLimit {
    let candidates: [&str; 2] = match limit {
        Limit::Length(_) => ["5 ft 7 1/2 in", "1900 mm"],
        Limit::Area(_) => ["33 sq ft", "1024 sq in"],
        Limit::Share(_) => ["37 %", "4.5 %"],
        Limit::Count(_) => ["3", "7"],
    };
    let written = candidates.map(|text| WrittenLimit::read(text, limit).expect("it is of the same measure"));
    written.into_iter().find(|written| written.limit() != limit).expect("one of the two is another")
}

/// The changes that the last text makes to the book that it is laid over.
fn changes(before: &RuleBook, after: &RuleBook) -> Vec<(&'static str, String)> {
    let mut found = Vec::new();
    for rule in before.rules() {
        match after.rule(rule.rule.id) {
            None => found.push((rule.rule.id, "dropped".to_owned())),
            Some(new) => {
                assert_eq!((&rule.section, &rule.rooms, &rule.exceptions), (&new.section, &new.rooms, &new.exceptions));
                if rule.level != new.level {
                    found.push((rule.rule.id, new.level.word().to_owned()));
                }
                assert_eq!(rule.limits.len(), new.limits.len());
                for (name, limit) in rule.limits.iter().filter(|(name, limit)| new.limit(name) != Some(*limit)) {
                    found.push((rule.rule.id, format!("{name}: {limit:?} {:?}", new.limit(name))));
                }
            }
        }
    }
    assert!(after.rules().iter().all(|rule| before.rule(rule.rule.id).is_some()), "nothing is added");
    found
}

#[test]
fn each_limit_of_each_book_is_changed_alone() {
    for book in books() {
        for rule in book.rules() {
            for (name, limit) in &rule.limits {
                let mut draft = draft(&name_of(&book));
                let written = another(*limit);
                let limits = BTreeMap::from([(name.clone(), written.clone())]);
                draft.rules.insert(rule.rule.id, RuleDraft::Changed { level: None, limits });
                let amended = draft.laid_over(&book).unwrap_or_else(|error| panic!("{error}\n{}", draft.text()));
                let expected = format!("{name}: {limit:?} {:?}", Some(written.limit()));
                assert_eq!(changes(&book, &amended), [(rule.rule.id, expected)], "{}", draft.text());
            }
        }
    }
}

#[test]
fn everything_at_once_is_changed_too() {
    for book in books() {
        let mut draft = draft(&name_of(&book));
        let mut expected = Vec::new();
        for (index, rule) in book.rules().iter().enumerate() {
            let id = rule.rule.id;
            if index % 3 == 0 {
                draft.rules.insert(id, RuleDraft::Dropped);
                expected.push((id, "dropped".to_owned()));
                continue;
            }
            let other = if rule.level == Level::Required { Level::Advisory } else { Level::Required };
            expected.push((id, other.word().to_owned()));
            let mut limits = BTreeMap::new();
            for (name, limit) in &rule.limits {
                let written = another(*limit);
                expected.push((id, format!("{name}: {limit:?} {:?}", Some(written.limit()))));
                limits.insert(name.clone(), written);
            }
            draft.rules.insert(id, RuleDraft::Changed { level: Some(other), limits });
        }
        let amended = draft.laid_over(&book).unwrap_or_else(|error| panic!("{error}\n{}", draft.text()));
        assert_eq!(changes(&book, &amended), expected, "{}", draft.text());
    }
}

#[test]
fn what_is_said_of_an_amendment_reads_back_whatever_it_holds() {
    let code = RuleBook::built_in("irc-2021").expect("it is built in");
    for said in ["Town", "a \"quoted\" \\ word", "Caf\u{e9} \u{1f3e0} # no = comment", "'''", "\"", "[rules]"] {
        let mut draft = draft("irc-2021");
        (draft.name, draft.authority) = (said.into(), said.into());
        (draft.date, draft.reason) = (said.into(), said.into());
        let amended = draft.laid_over(&code).unwrap_or_else(|error| panic!("{error}\n{}", draft.text()));
        let [amendment] = amended.facts().amendments.as_slice() else { panic!("one is laid over it") };
        assert_eq!([&amendment.name, &amendment.authority, &amendment.date, &amendment.reason], [said; 4]);
        assert_eq!((&amendment.id, amendment.amends.as_str()), (&draft.id(), "irc-2021"));
        assert_eq!(amended.facts().changes, []);
    }
    let mut draft = draft("irc-2021");
    draft.reason = "a\u{1b}[31mb".into();
    let refused = draft.laid_over(&code).expect_err("control characters are refused").to_string();
    assert!(refused.contains("control character \\u{1b}"), "{refused}");
}

#[test]
fn a_drafted_amendment_tells_both_figures() {
    let code = RuleBook::built_in("irc-2021").expect("it is built in");
    let sill = code.rule("egress-sill").and_then(|rule| rule.limit("sill")).expect("the book has it");
    let written = WrittenLimit::read(" 40 in ", sill).expect("a length");
    let mut draft = draft("irc-2021");
    let limits = BTreeMap::from([("sill".to_owned(), written)]);
    draft.rules.insert("egress-sill", RuleDraft::Changed { level: None, limits });
    let amended = draft.laid_over(&code).unwrap_or_else(|error| panic!("{error}"));
    let told: Vec<&Changed> = amended.facts().changes.iter().map(|change| &change.what).collect();
    assert_eq!(told.iter().map(ToString::to_string).collect::<Vec<_>>(), ["`sill` is 3'-4\", 3'-8\" in the code"]);
    assert_eq!(
        draft.text(),
        "mateline_amendment = 1\nid = \"town-of-alder-2026\"\nname = \"Town of Alder, 2026\"\namends = \"irc-2021\"\n\
         authority = \"Town of Alder\"\ndate = \"2026-07-01\"\nreason = \"A test.\"\n\n[rules.egress-sill]\nsill = \"40 in\"\n"
    );
}

#[test]
fn figures_without_a_unit_or_of_another_measure_are_refused() {
    let length = Limit::parse("36 in").expect("a limit");
    let count = Limit::Count(2.into());
    for (text, in_place_of, part) in [
        ("36", length, "has no unit"),
        ("", length, "is no limit"),
        ("36 sq in", length, "`36 sq in` is not a length such as 7 ft or 36 in"),
        ("7 ft", Limit::parse("8 %").expect("a limit"), "`7 ft` is not a percentage such as 50 %"),
        ("0", count, "`0` is no whole number from 1 on"),
        ("2 in", count, "`2 in` is no whole number from 1 on"),
    ] {
        let refused = WrittenLimit::read(text, in_place_of).expect_err(text);
        assert!(refused.contains(part), "{refused}");
    }
}
