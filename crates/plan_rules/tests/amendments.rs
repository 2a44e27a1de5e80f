//! Amendments are laid over a book: what they say holds, everything else is the code's, and what they change is told.

use std::collections::BTreeMap;

use plan_rules::{Changed, Limit, OpenError, RuleBook};

const HEAD: &str = "mateline_amendment = 1\nid = \"town\"\nname = \"Town\"\namends = \"irc-2021\"\n\
                    authority = \"A town\"\ndate = \"2026\"\nreason = \"A test\"\n";

fn code() -> RuleBook {
    RuleBook::built_in("irc-2021").expect("it is built in")
}

fn refusal(rest: &str) -> String {
    code().amended(&format!("{HEAD}{rest}")).expect_err("a faulty amendment is refused").to_string()
}

#[test]
fn the_examples_that_come_with_the_program_change_what_they_say() {
    let changes = |id| {
        let book = RuleBook::built_in(id).unwrap_or_else(|| panic!("{id} is built in"));
        let told = book.facts().changes.iter().map(|change| format!("{}: {}", change.rule, change.what));
        told.collect::<Vec<_>>()
    };
    assert_eq!(
        changes("light-6-3"),
        [
            "natural-light: `share_of_floor` is 6 %, 8 % in the code",
            "openable-area: `share_of_floor` is 3 %, 4 % in the code"
        ]
    );
    assert_eq!(changes("shower-1024"), ["shower-size: `area` is 7.11 sq ft, 6.25 sq ft in the code"]);
    assert_eq!(changes("no-openable-area"), ["openable-area: dropped; the code has it"]);
}

#[test]
fn what_an_amendment_does_not_say_is_as_in_the_code() {
    let (code, amended) = (code(), RuleBook::built_in("light-6-3").expect("it is built in"));
    assert_eq!(amended.rules().len(), code.rules().len());
    for (old, new) in code.rules().iter().zip(amended.rules()) {
        let is_changed = amended.facts().changes.iter().any(|change| change.rule == old.rule.id);
        assert_eq!(old.limits != new.limits, is_changed, "{}", old.rule.id);
        assert_eq!((&old.section, old.level, &old.rooms), (&new.section, new.level, &new.rooms), "{}", old.rule.id);
    }
    assert_eq!(amended.code().map(|code| code.facts().id.clone()), Some("irc-2021".to_owned()));
}

#[test]
fn a_rule_can_be_added_made_advisory_and_held_in_other_rooms() {
    let text = format!(
        "{HEAD}[rules.closet-depth]\nlevel = \"required\"\nrooms = [\"closet\"]\ndepth = \"2 ft\"\n\
         [rules.hallway-width]\nlevel = \"advisory\"\n[rules.egress-sill]\nrooms = [\"bedroom\", \"study\"]\n"
    );
    let book = code().amended(&text).expect("it can be read");
    assert_eq!(book.rule("closet-depth").and_then(|rule| rule.limit("depth")), Limit::parse("24 in").ok());
    let changed: BTreeMap<&str, &Changed> =
        book.facts().changes.iter().map(|change| (change.rule, &change.what)).collect();
    assert_eq!(changed["closet-depth"], &Changed::Added);
    assert_eq!(changed["hallway-width"].to_string(), "`level` is advisory, required in the code");
    assert_eq!(changed["egress-sill"].to_string(), "`rooms` is bedroom, study, bedroom in the code");
}

#[test]
fn two_amendments_hold_together_the_later_one_before_the_earlier() {
    let width = |inches: u32| format!("{HEAD}[rules.hallway-width]\nwidth = \"{inches} in\"\n");
    let once = code().amended(&width(40)).expect("it can be read");
    let sill = format!("{HEAD}[rules.egress-sill]\nsill = \"40 in\"\n");
    let book = once.amended(&sill).and_then(|book| book.amended(&width(42))).expect("they can be read");
    let told: Vec<String> = book.facts().changes.iter().map(|change| change.what.to_string()).collect();
    assert_eq!(told, ["`sill` is 3'-4\", 3'-8\" in the code", "`width` is 3'-6\", 3'-0\" in the code"]);
    assert_eq!(book.facts().amendments.len(), 3);
}

#[test]
fn faults_of_an_amendment_are_told_with_their_place_in_it() {
    assert_eq!(
        refusal("[rules.natural-ligth]\nshare_of_floor = \"6 %\"\n"),
        "line 8, column 8: rules: there is no rule `natural-ligth`; did you mean `natural-light`?"
    );
    assert_eq!(
        refusal("[rules.natural-light]\nshare_of_flor = \"6 %\"\n"),
        "line 9, column 1: rules.natural-light: unknown field `share_of_flor`; did you mean `share_of_floor`?"
    );
    assert_eq!(
        refusal("[rules.natural-light]\nshare_of_floor = \"6 in\"\n"),
        "line 9, column 18: rules.natural-light: `share_of_floor` is a percentage such as \"50 %\", not a length"
    );
    assert!(refusal("[rules.natural-light]\nshare_of_floor = \"-6 %\"\n").contains("is no limit"));
    assert_eq!(
        refusal("[rules.closet-depth]\ndropped = true\n"),
        "line 8, column 8: rules: the book has no rule `closet-depth` that could be dropped"
    );
    assert!(refusal("[rules.closet-depth]\ndepth = \"2 ft\"\n").contains("`rooms` is missing"));
    assert_eq!(
        refusal("[rules.natural-light]\ndropped = \"yes\"\n"),
        "line 9, column 11: rules.natural-light: `dropped` is true or false, not text"
    );
    let without_reason = HEAD.replace("reason = \"A test\"\n", "") + "[rules.natural-light]\ndropped = true\n";
    assert!(code().amended(&without_reason).expect_err("refused").to_string().contains("`reason` is missing"));
}

/// Files by name.
fn open(name: &str, files: &[(&str, &str)]) -> Result<RuleBook, OpenError<std::io::Error>> {
    let read = |named: &str| {
        let found = files.iter().find(|(name, _)| *name == named);
        found.map(|(_, text)| (*text).to_owned()).ok_or_else(|| std::io::ErrorKind::NotFound.into())
    };
    RuleBook::open(name, read)
}

#[test]
fn an_amendment_of_an_amendment_is_laid_over_both() {
    let first = format!("{HEAD}[rules.hallway-width]\nwidth = \"40 in\"\n");
    let second = first.replace("amends = \"irc-2021\"", "amends = \"first.toml\"").replace("40 in", "44 in");
    let book = open("second.toml", &[("first.toml", &first), ("second.toml", &second)]).expect("both can be read");
    assert_eq!(book.rule("hallway-width").and_then(|rule| rule.limit("width")), Limit::parse("44 in").ok());
    assert_eq!(book.facts().amendments.len(), 2);
    assert_eq!(book.facts().amendments[1].source.to_string(), "second.toml");
    assert_eq!(book.facts().source.to_string(), "built-in");
}

#[test]
fn amendments_in_a_circle_are_refused_by_name() {
    let of = |other: &str| HEAD.replace("amends = \"irc-2021\"", &format!("amends = \"{other}\"")) + "[rules]\n";
    let (one, other) = (of("other.toml"), of("one.toml"));
    let error = open("one.toml", &[("one.toml", &one), ("other.toml", &other)]).expect_err("a circle");
    assert_eq!(
        error.to_string(),
        "one.toml and other.toml are laid over each other in a circle; the last must be laid over a book"
    );
}

#[test]
fn a_missing_base_is_told() {
    let text = HEAD.replace("irc-2021", "gone.toml") + "[rules]\n";
    assert!(matches!(open("one.toml", &[("one.toml", &text)]), Err(OpenError::File(_))));
}
