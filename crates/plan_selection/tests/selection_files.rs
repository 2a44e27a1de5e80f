//! Selection files: kept, read back, opened against a plan that was changed, signed, and changed by orders.

use plan_model::{AlternateRef, Money, Plan, Selection, file};
use plan_selection::{
    As, Change, Finding, NoOrder, NotSignable, Opened, SelectionFile, check_replaces, open, read, selection_json,
    selection_report_schema, selection_text, write,
};
use proptest::prelude::*;

const DUNLIN: &str = include_str!("../../../sample-plans/dunlin-58.json");

/// A plan without a house: three choices that know of each other.
const SMALL: &str = r#"{
  "mateline_plan": 1, "name": "Test", "maker": "Test", "units": "in", "currency": "USD",
  "base_price": "100000", "home": { "legal_kind": "state-label" }, "modules": [], "base": {},
  "choices": [
    { "id": "flex-room", "name": "Flex room", "alternates": [
      { "id": "study", "name": "Study", "included": true },
      { "id": "bedroom", "name": "Fourth bedroom", "price": "1500.50", "needs": ["laundry=stacked"],
        "brings": { "rooms": [{ "id": "bedroom-4", "name": "Bedroom 4", "use": "bedroom", "at": [10, 10] }] } } ] },
    { "id": "laundry", "name": "Laundry", "alternates": [
      { "id": "side", "name": "Side by side", "included": true },
      { "id": "stacked", "name": "Stacked", "price": "250" } ] },
    { "id": "porch", "name": "Porch", "alternates": [
      { "id": "small", "name": "Small", "included": true },
      { "id": "none", "name": "None", "price": "-400" } ] }
  ]
}"#;

fn plan(text: &str) -> Plan {
    file::read(text).unwrap_or_else(|error| panic!("{error}"))
}

/// The small plan with a part of its text replaced.
fn changed(what: &str, instead: &str) -> Plan {
    assert!(SMALL.contains(what), "the plan holds {what}");
    plan(&SMALL.replacen(what, instead, 1))
}

fn selection(plan: &Plan, answers: &[&str]) -> Selection {
    answers.iter().fold(Selection::included(plan), |selection, answer| {
        let answer: AlternateRef = answer.parse().expect("CHOICE=ALTERNATE");
        selection.with(plan, &answer).unwrap_or_else(|error| panic!("{error}"))
    })
}

fn stated() -> As {
    let date = "2026-03-02".parse().expect("a day");
    As { buyer: "Lot 14".to_owned(), date, notes: vec!["Keys at the office".to_owned()] }
}

/// The fourth bedroom with what it needs, of the small plan.
fn kept() -> SelectionFile {
    let plan = plan(SMALL);
    SelectionFile::record(&plan, &selection(&plan, &["flex-room=bedroom", "laundry=stacked"]), stated())
}

fn signed() -> SelectionFile {
    kept()
        .sign(&plan(SMALL), "R. Alder", "2026-03-05".parse().expect("a day"))
        .unwrap_or_else(|error| panic!("{error}"))
}

fn sentences(opened: &Opened) -> Vec<String> {
    opened.findings.iter().map(Finding::to_string).collect()
}

fn since(plan: &Plan) -> Vec<String> {
    sentences(&open(&kept(), plan))
}

fn refused(text: &str) -> String {
    match read(text) {
        Ok(_) => panic!("the file was read"),
        Err(error) => error.to_string(),
    }
}

fn without(what: &str, instead: &str, of: &SelectionFile) -> String {
    let text = write(of);
    assert!(text.contains(what), "the file holds {what}:\n{text}");
    text.replacen(what, instead, 1)
}

#[test]
fn what_is_kept_is_read_back_and_opens_as_it_was_chosen() {
    let plan = plan(SMALL);
    let file = kept();
    assert_eq!(read(&write(&file)), Ok(file.clone()));
    assert_eq!(file.total, Money::from(100_000) + "1750.50".parse_money());
    let opened = open(&file, &plan);
    assert_eq!(opened.selection, selection(&plan, &["flex-room=bedroom", "laundry=stacked"]));
    assert!(opened.plan_is_unchanged() && opened.holds());
    assert_eq!(opened.price, file.total);
}

trait ParseMoney {
    fn parse_money(&self) -> Money;
}

impl ParseMoney for str {
    fn parse_money(&self) -> Money {
        serde_json::from_str(&format!("\"{self}\"")).expect("an amount")
    }
}

#[test]
fn another_layout_of_the_plan_file_is_the_same_plan() {
    let plan = plan(&SMALL.replace("  ", "\t\t").replace("10, 10", "10.0,10.00"));
    assert!(open(&kept(), &plan).plan_is_unchanged());
}

#[test]
fn what_was_changed_is_told_exactly() {
    assert_eq!(
        since(&changed("1500.50", "1750")),
        ["Flex room: Fourth bedroom cost 1,500.50 and costs 1,750 now (+249.50)."]
    );
    assert_eq!(
        since(&changed("\"100000\"", "\"98000\"")),
        ["The home with every included alternate cost 100,000 and costs 98,000 now (-2,000)."]
    );
    assert_eq!(
        since(&changed(
            "\"needs\": [\"laundry=stacked\"]",
            "\"needs\": [\"porch=small\"], \"excludes\": [\"laundry=side\"]"
        )),
        [
            "Flex room: Fourth bedroom now needs porch=small and no longer needs laundry=stacked.",
            "Flex room: Fourth bedroom now excludes laundry=side.",
        ]
    );
    assert_eq!(
        since(&changed("[10, 10]", "[10, 11]")),
        ["What Flex room: Fourth bedroom brings into the home or takes out of it was changed."]
    );
    assert_eq!(
        since(&changed("Fourth bedroom", "Bedroom 4")),
        ["Flex room: Fourth bedroom is called Flex room: Bedroom 4 now."]
    );
    assert_eq!(since(&changed("state-label", "federal-label")), ["The facts of the whole home were changed."]);
    let book =
        r#""prices": { "mateline_prices": 1, "name": "Test", "currency": "USD", "effective": "2026-01-01" }, "base""#;
    assert_eq!(since(&changed("\"base\"", book)), ["The price book was changed."]);
    assert_eq!(
        since(&changed(
            "\"base\": {}",
            "\"base\": { \"rooms\": [{ \"id\": \"a\", \"name\": \"A\", \"use\": \"hall\", \"at\": [0, 0] }] }"
        )),
        ["What is drawn whatever is chosen was changed."]
    );
    assert_eq!(since(&changed("-400", "-500")), ["The plan was changed in nothing that concerns this selection."]);
}

#[test]
fn what_is_gone_is_told_with_the_nearest_name_and_no_longer_holds() {
    let plan = changed("\"id\": \"bedroom\"", "\"id\": \"bedrooms\"");
    let opened = open(&kept(), &plan);
    assert_eq!(
        sentences(&opened),
        ["Flex room: Fourth bedroom: the choice `flex-room` no longer has the alternate `bedroom`; the nearest is \
             `bedrooms`. The included one stands in its place: Flex room: Study."]
    );
    assert!(!opened.holds());
    assert!(opened.selection.takes(&"flex-room=study".parse().expect("an answer")));

    let plan = changed("\"id\": \"flex-room\"", "\"id\": \"flex-rom\"");
    let opened = open(&kept(), &plan);
    assert_eq!(
        sentences(&opened),
        [
            "Flex room: Fourth bedroom: the plan no longer has the choice `flex-room`; the nearest is `flex-rom`.",
            "The choice `flex-rom` is new; it is answered with the included alternate: Flex room: Study.",
        ]
    );
    assert!(!opened.holds());
}

#[test]
fn a_new_choice_is_answered_with_the_included_alternate() {
    let with = r#"{ "id": "siding", "name": "Siding", "alternates": [{ "id": "vinyl", "name": "Vinyl", "included": true }] },
    { "id": "porch""#;
    let opened = open(&kept(), &changed("{ \"id\": \"porch\"", with));
    assert_eq!(
        sentences(&opened),
        ["The choice `siding` is new; it is answered with the included alternate: Siding: Vinyl."]
    );
    assert!(opened.holds());
    assert!(opened.selection.takes(&"siding=vinyl".parse().expect("an answer")));
}

#[test]
fn what_the_plan_now_refuses_does_not_hold() {
    let opened = open(&kept(), &changed("\"price\": \"250\"", "\"price\": \"250\", \"excludes\": [\"porch=small\"]"));
    assert!(!opened.holds());
    assert_eq!(opened.refusals.len(), 1);
    let text = selection_text(&plan(SMALL), &kept(), &opened);
    assert!(text.contains("CANNOT BE HAD\n  Laundry \"Stacked\" cannot be had with Porch \"Small\"."), "{text}");
}

#[test]
fn faults_are_told_with_line_column_path_and_the_nearest_name() {
    let sentence = refused(&without("\"buyer\"", "\"buyr\"", &kept()));
    assert!(
        sentence.contains("line 3, column") && sentence.contains("unknown field `buyr`; did you mean `buyer`?"),
        "{sentence}"
    );
    let sentence = refused(&without("2026-03-02", "2026-02-30", &kept()));
    assert!(
        sentence.contains("date: `2026-02-30` is not a day of the calendar; write year, month and day"),
        "{sentence}"
    );
    let sentence = refused(&without("\"choice\": \"laundry\"", "\"choice\": \"flex-room\"", &kept()));
    assert!(sentence.contains("choices[1].choice (\"flex-room\"): the choice is answered above"), "{sentence}");
    let sentence = refused(&without("\"mateline_selection\": 1", "\"mateline_selection\": 2", &kept()));
    assert!(
        sentence.contains(
            "line 2, column 25: mateline_selection: this program reads version 1 of the selection file, not 2"
        ),
        "{sentence}"
    );
    let sentence = refused(&without("Lot 14", " ", &kept()));
    assert!(sentence.contains("buyer: expected a name"), "{sentence}");
    assert!(refused(SMALL).contains("this is no selection file: expected the field `mateline_selection`"));
    assert!(refused("{").contains("line 1"));
}

#[test]
fn a_signed_selection_is_frozen() {
    let plan = plan(SMALL);
    let signed = signed();
    assert_eq!(read(&write(&signed)), Ok(signed.clone()));
    let date = "2026-03-06".parse().expect("a day");
    assert!(matches!(signed.sign(&plan, "again", date), Err(NotSignable::Signed(_))));
    let other = SelectionFile { reversed: true, ..kept() };
    let frozen = check_replaces(&signed, &other).expect_err("it is signed").to_string();
    assert!(
        frozen.starts_with("the selection of Lot 14 was signed by R. Alder on 2026-03-05 and is frozen;"),
        "{frozen}"
    );
    assert_eq!(check_replaces(&kept(), &other), Ok(()), "what is not signed may be kept anew");
    let ordered = signed.order_change(&plan, &Selection::included(&plan), date, None).expect("an order");
    assert_eq!(check_replaces(&signed, &ordered), Ok(()), "orders are added");
    assert!(check_replaces(&ordered, &signed).is_err(), "and never taken away");
    let changed = SelectionFile { total: Money::from(1), ..ordered.clone() };
    assert!(check_replaces(&ordered, &changed).is_err());
}

#[test]
fn only_what_can_be_had_of_the_plan_as_it_is_is_signed() {
    let date = "2026-03-05".parse().expect("a day");
    let refused = kept().sign(&changed("1500.50", "1600"), "R. Alder", date).expect_err("the plan was changed");
    assert_eq!(
        refused.to_string(),
        "the plan was changed since 2026-03-02; keep the selection anew as it is now, and sign that"
    );
    let plan = plan(SMALL);
    let impossible = SelectionFile::record(&plan, &selection(&plan, &["flex-room=bedroom"]), stated());
    assert!(matches!(impossible.sign(&plan, "R. Alder", date), Err(NotSignable::Refused { .. })));
    let early = kept().sign(&plan, "R. Alder", "2026-03-01".parse().expect("a day"));
    assert!(matches!(early, Err(NotSignable::TooEarly { .. })));
}

/// Reckoned by hand: 101,750.50 signed; the bedroom at 1,500.50 and the stacked laundry at 250 are given up for what costs
/// nothing more: -1,750.50. Then the porch is left out, at -500 by then: 99,500.
#[test]
fn change_orders_are_numbered_and_priced_by_what_was_agreed_and_what_things_cost_by_then() {
    let now = plan(SMALL);
    let dearer = changed("-400", "-500");
    let day = |text: &str| text.parse().expect("a day");
    let first = signed().order_change(&now, &Selection::included(&now), day("2026-04-01"), None).expect("an order");
    let order = &first.change_orders[0];
    assert_eq!((order.number, order.difference), (1, "-1750.50".parse_money()));
    assert_eq!(order.total, Money::from(100_000));
    let without_porch = selection(&dearer, &["porch=none"]).with_reversed(true);
    let note = Some("By telephone".to_owned());
    let second = first.order_change(&dearer, &without_porch, day("2026-04-02"), note).expect("an order");
    let order = &second.change_orders[1];
    assert_eq!((order.number, order.difference, order.total), (2, Money::from(-500), Money::from(99_500)));
    assert_eq!(order.changes[1], Change::Reversed(true));
    assert_eq!(second.agreed_total(), Money::from(99_500));
    assert!(second.is_reversed());
    assert_eq!(read(&write(&second)), Ok(second.clone()));
    assert_eq!(open(&second, &dearer).selection, without_porch);
    let text = selection_text(&dearer, &second, &open(&second, &dearer));
    for part in [
        "SIGNED by R. Alder on 2026-03-05: 101,750.50 USD",
        "CHANGE ORDER 1 of 2026-04-01",
        "Flex room: Study instead of Flex room: Fourth bedroom",
        "CHANGE ORDER 2 of 2026-04-02",
        "AGREED 99,500 USD",
    ] {
        assert!(text.contains(part), "{part}:\n{text}");
    }
}

#[test]
fn an_order_changes_something_of_a_signed_selection_and_is_not_dated_back() {
    let plan = plan(SMALL);
    let same = selection(&plan, &["flex-room=bedroom", "laundry=stacked"]);
    let day = |text: &str| text.parse().expect("a day");
    assert_eq!(kept().order_change(&plan, &same, day("2026-04-01"), None), Err(NoOrder::NotSigned));
    assert_eq!(signed().order_change(&plan, &same, day("2026-04-01"), None), Err(NoOrder::NothingChanged));
    let early = signed().order_change(&plan, &Selection::included(&plan), day("2026-03-04"), None);
    assert!(matches!(early, Err(NoOrder::TooEarly { .. })));
    let euros = changed("USD", "EUR");
    let other = signed().order_change(&euros, &Selection::included(&euros), day("2026-04-01"), None);
    assert!(matches!(other, Err(NoOrder::Currency { .. })));
}

#[test]
fn orders_whose_sums_or_turns_are_wrong_are_refused_with_their_place() {
    let plan = plan(SMALL);
    let ordered = signed()
        .order_change(&plan, &Selection::included(&plan), "2026-04-01".parse().expect("a day"), None)
        .expect("an order");
    let sentence = refused(&without("\"difference\": \"-1750.50\"", "\"difference\": \"-1000\"", &ordered));
    assert!(sentence.contains("change_orders[0].difference: expected the sum of its changes, -1,750.50"), "{sentence}");
    assert!(sentence.contains("change_orders[0].total: expected 100,750.50"), "{sentence}");
    let sentence = refused(&without("\"number\": 1", "\"number\": 2", &ordered));
    assert!(sentence.contains("change_orders[0].number: orders are numbered in turn; expected 1"), "{sentence}");
    let sentence = refused(&without("\"was\": \"bedroom\"", "\"was\": \"den\"", &ordered));
    assert!(sentence.contains("until then \"bedroom\" was agreed for this choice"), "{sentence}");
    let sentence = refused(&without("2026-04-01", "2026-01-01", &ordered));
    assert!(sentence.contains("change_orders[0].date: expected no day before 2026-03-05"), "{sentence}");
}

/// By a validator that is not ours.
#[test]
fn files_and_reports_are_as_their_schemas_say() {
    let now = plan(SMALL);
    let date = "2026-04-01".parse().expect("a day");
    let ordered =
        signed().order_change(&now, &Selection::included(&now).with_reversed(true), date, None).expect("an order");
    let validator = |schema: schemars::Schema| jsonschema::validator_for(schema.as_value()).expect("a schema");
    let (of_files, of_reports) = (validator(plan_selection::schema()), validator(selection_report_schema()));
    let dearer = changed("1500.50", "1600");
    for file in [kept(), signed(), ordered] {
        let json = |text: &str| serde_json::from_str(text).expect("JSON");
        assert!(of_files.is_valid(&json(&write(&file))));
        assert!(of_reports.is_valid(&json(&selection_json(&dearer, &file, &open(&file, &dearer)))));
        assert!(!of_files.is_valid(&json(&without("\"buyer\"", "\"buyr\"", &file))));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Any selection of the demo home, kept, read and opened, is the same selection at the same price; and from any signed
    /// one an order leads to any other, at its price.
    #[test]
    fn any_selection_is_kept_and_orders_lead_from_any_to_any(
        picks in prop::collection::vec(0..12_usize, 12), others in prop::collection::vec(0..12_usize, 12),
        reversed in any::<bool>(),
    ) {
        let plan = plan(DUNLIN);
        let select = |picks: &[usize]| plan.choices.iter().zip(picks).fold(Selection::included(&plan), |all, (choice, pick)| {
            let alternate = choice.alternates[pick % choice.alternates.len()].id.clone();
            all.with(&plan, &AlternateRef { choice: choice.id.clone(), alternate }).expect("an alternate")
        });
        let (one, other) = (select(&picks).with_reversed(reversed), select(&others));
        let file = SelectionFile::record(&plan, &one, stated());
        let text = write(&file);
        let file = read(&text).unwrap_or_else(|error| panic!("{error}"));
        prop_assert_eq!(write(&file), text, "the same bytes");
        let opened = open(&file, &plan);
        prop_assert_eq!(&opened.selection, &one);
        prop_assert!(opened.plan_is_unchanged());
        let Ok(signed) = file.sign(&plan, "R. Alder", "2026-03-05".parse().expect("a day")) else {
            prop_assert!(!opened.refusals.is_empty());
            return Ok(());
        };
        match signed.order_change(&plan, &other, "2026-03-06".parse().expect("a day"), None) {
            Ok(ordered) => {
                let ordered = read(&write(&ordered)).unwrap_or_else(|error| panic!("{error}"));
                prop_assert_eq!(open(&ordered, &plan).selection, other.clone());
                prop_assert_eq!(ordered.agreed_total(), plan_choices::price(&plan, &other));
            }
            Err(error) => prop_assert!(error == NoOrder::NothingChanged && one == other),
        }
    }
}
