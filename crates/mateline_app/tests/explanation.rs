//! What a rule is, told from any finding, and the book that judges.

use egui::Key;
use egui_kittest::kittest::Queryable;
use egui_kittest::{Harness, SnapshotResults};
use mateline_app::files::{Files, Recent};
use mateline_app::{Mateline, demo};
use plan_model::{LegalKind, Length, Plan};
use plan_rules::report::{Topic, rule_facts};
use plan_rules::{CAUTIONS, RuleBook};

fn built_in(id: &str) -> RuleBook {
    RuleBook::built_in(id).expect("it comes with the program")
}

fn window_on(plan: Plan, book: RuleBook, size: [f32; 2]) -> Harness<'static, Mateline> {
    let builder = Harness::builder().with_size(size).with_max_steps(20).with_render_cursor(false).wgpu();
    let mut harness = builder
        .build_eframe(|created| Mateline::new(&created.egui_ctx, plan, book, Files::unsaved(Recent::default()), None));
    harness.run();
    harness
}

/// The demo home with a ceiling of 6'-8" over two rooms, where 7'-0" is required.
fn low() -> Plan {
    let mut plan = demo().unwrap_or_else(|error| panic!("{error}"));
    let lists =
        plan.choices.iter_mut().flat_map(|choice| &mut choice.alternates).map(|alternate| &mut alternate.brings);
    let ceilings = lists.map(|brought| &mut brought.ceilings).find(|ceilings| !ceilings.is_empty());
    let ceilings = ceilings.expect("a choice brings the ceiling");
    let mut low = ceilings[0].clone();
    low.id = "low-ceiling".into();
    low.height = Length::inches(80);
    low.rooms = ["kitchen", "hall"].map(Into::into).to_vec();
    ceilings.push(low);
    plan
}

fn federal() -> Plan {
    let mut plan = demo().unwrap_or_else(|error| panic!("{error}"));
    plan.home.legal_kind = LegalKind::FederalLabel;
    plan
}

/// Clicks what is labelled so, wherever it is scrolled.
fn click(harness: &mut Harness<'_, Mateline>, label: &str) {
    let found = harness.get_all_by_label_contains(label).next();
    found.unwrap_or_else(|| panic!("{label}")).click_accesskit();
    harness.run();
}

fn shows(harness: &Harness<'_, Mateline>, text: &str) -> bool {
    harness.query_all_by_label_contains(text).next().is_some()
}

fn book_id<'a>(harness: &'a Harness<'_, Mateline>) -> &'a str {
    &harness.state().session().book().facts().id
}

#[test]
fn a_chosen_correction_is_explained_as_the_book_has_it() {
    let mut harness = window_on(low(), built_in("irc-2021"), [1440.0, 900.0]);
    assert!(!shows(&harness, "Explain"), "nothing is chosen");
    click(&mut harness, "1: The ceiling of Kitchen");
    click(&mut harness, "Explain");
    let book = built_in("irc-2021");
    let rule = book.rule("ceiling-height").expect("the book has it");
    assert!(shows(&harness, rule.rule.measures));
    assert!(shows(&harness, "Drawing: The ceiling of Bedroom is 6'-8\" high at its lowest; 7'-0\" is required."));
    for fact in rule_facts(rule) {
        let text = match fact.topic {
            // These begin a sentence.
            Topic::Standing | Topic::Doubt => &fact.text[1..],
            _ => fact.text.as_str(),
        };
        assert!(shows(&harness, text), "{text}");
    }
    for caution in CAUTIONS {
        assert!(shows(&harness, caution), "{caution}");
    }
    assert!(!shows(&harness, "Choices"), "the lists give way");
    click(&mut harness, "Close the explanation");
    assert!(shows(&harness, "Choices") && !shows(&harness, rule.rule.measures));
}

#[test]
fn the_explanation_goes_with_the_finding_that_is_chosen() {
    let mut harness = window_on(low(), built_in("irc-2021"), [1440.0, 900.0]);
    click(&mut harness, "Advisory: The space before the front of the furnace");
    click(&mut harness, "Explain");
    let book = built_in("irc-2021");
    let rules = ["equipment-front", "ceiling-height"].map(|id| book.rule(id).expect("the book has it").rule);
    assert!(shows(&harness, rules[0].measures));
    harness.key_press(Key::F4);
    harness.run();
    assert!(shows(&harness, rules[1].measures) && !shows(&harness, rules[0].measures));
    assert!(shows(&harness, "Drawing: The ceiling of") && !shows(&harness, "Drawing: The space before"));
}

#[test]
fn an_amended_limit_stands_beside_the_codes() {
    let amendment = "mateline_amendment = 1\nid = \"town\"\nname = \"Higher kitchens\"\namends = \"irc-2021\"\n\
                     authority = \"Town of Alder\"\ndate = \"2026-07-01\"\nreason = \"Range hoods.\"\n\
                     [rules.ceiling-height]\nlevel = \"advisory\"\n[rules.ceiling-height.heights]\nkitchen = \"7 ft 6 in\"\n";
    let book = built_in("irc-2021").amended(amendment).unwrap_or_else(|error| panic!("{error}"));
    let mut harness = window_on(low(), book, [1440.0, 900.0]);
    assert!(shows(&harness, "Judged by International Residential Code, 2021, amended by Higher kitchens"));
    click(&mut harness, "Advisory: The ceiling of Kitchen");
    click(&mut harness, "Explain");
    for told in [
        "7'-6\"",
        "7'-0\" in the code",
        "`level` is advisory, required in the code",
        "Higher kitchens; Town of Alder; 2026-07-01. Range hoods.",
    ] {
        assert!(shows(&harness, told), "{told}");
    }
    harness.remove_cursor();
    harness.run();
    harness.snapshot("explanation_amended");
}

#[test]
fn a_home_may_be_judged_by_the_books_for_its_label() {
    let mut harness = window_on(federal(), built_in("hud-3280"), [1440.0, 900.0]);
    assert!(harness.state().session().shown().judgement.is_ok());
    click(&mut harness, "Judged by Manufactured Home Construction");
    assert!(!shows(&harness, "International Residential Code"), "it is for homes under another label");
    harness.remove_cursor();
    harness.run();
    harness.snapshot("books_for_a_federal_home");
    click(&mut harness, "Visitable and accessible dwellings");
    assert_eq!(book_id(&harness), "accessible-dwelling");
    assert_eq!(harness.state().session().can_undo(), None, "the book is no part of the plan");
    assert!(shows(&harness, "Judged by Visitable and accessible dwellings"));
}

#[test]
fn pictures_of_explanations() {
    let mut results = SnapshotResults::new();
    for (name, finding, size) in [
        ("explanation", "1: The ceiling of", [1440.0, 900.0]),
        ("explanation_advisory_small", "Advisory: The space before the front of the furnace", [1100.0, 700.0]),
    ] {
        let mut harness = window_on(low(), built_in("irc-2021"), size);
        click(&mut harness, finding);
        harness.remove_cursor();
        harness.run();
        results.add(harness.try_snapshot(format!("{name}_offered")));
        click(&mut harness, "Explain");
        results.add(harness.try_snapshot(name));
    }
}
