//! The headless words as another program meets them: exit codes, reports, and sentences about what is broken.

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const DEMO: &str = "sample-plans/dunlin-58.json";
const BOOK: &str = "assets/rule-books/irc-2021.toml";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn mateline(words: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_mateline"));
    command.current_dir(root()).args(words).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
    command.output().expect("the program starts")
}

fn told(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("sentences are text")
}

fn printed(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("reports are text")
}

/// A plan made from another by changing its text, in a folder that goes with the test.
struct Changed {
    folder: PathBuf,
    path: String,
}

impl Changed {
    fn new(name: &str, text: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("mateline-command-line-{}-{name}", std::process::id()));
        fs::create_dir_all(&folder).expect("a temporary folder");
        let path = folder.join("plan.json");
        fs::write(&path, text).expect("a plan");
        Self { path: path.to_str().expect("plain names").to_owned(), folder }
    }

    fn demo(name: &str, from: &str, to: &str) -> Self {
        let text = fs::read_to_string(root().join(DEMO)).expect("the demo home");
        assert!(text.contains(from), "the demo home no longer says {from}");
        Self::new(name, &text.replace(from, to))
    }
}

impl Drop for Changed {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

#[test]
fn a_home_that_meets_every_rule_ends_in_0() {
    let output = mateline(&["check", DEMO]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    assert!(printed(&output).contains("Corrections: 0"));
    assert!(output.stderr.is_empty());
    let output = mateline(&["check", DEMO, "--select", "flex-room=fourth-bedroom"]);
    assert_eq!(output.status.code(), Some(0), "{}", printed(&output));
}

#[test]
fn a_correction_ends_in_1() {
    // Ceilings of 6'-8" where 7'-0" is required.
    let low = Changed::demo("low", "\"height\": 96", "\"height\": 80");
    let output = mateline(&["check", &low.path]);
    assert_eq!(output.status.code(), Some(1), "{}{}", told(&output), printed(&output));
    assert!(printed(&output).contains("R305.1"), "{}", printed(&output));
}

#[test]
fn what_the_plan_does_not_hold_ends_in_3() {
    let text = fs::read_to_string(root().join(DEMO)).expect("the demo home");
    let mut plan: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    plan["catalogue"]["deductions"] = serde_json::json!([]);
    let unknown = Changed::new("unknown", &plan.to_string());
    let output = mateline(&["check", &unknown.path]);
    assert_eq!(output.status.code(), Some(3), "{}{}", told(&output), printed(&output));
}

#[test]
fn reports_are_the_same_byte_for_byte_and_json_is_json() {
    for word in ["check", "measure"] {
        for format in ["text", "json"] {
            let once = mateline(&[word, DEMO, "--format", format]);
            assert_eq!(once.stdout, mateline(&[word, DEMO, "--format", format]).stdout);
            assert_eq!(once.status.code(), Some(0));
            if format == "json" {
                let report: serde_json::Value = serde_json::from_slice(&once.stdout).expect("JSON");
                assert_eq!(report[format!("mateline_{word}")], 1);
            }
        }
    }
    assert!(printed(&mateline(&["measure", DEMO])).contains("1595"));
}

/// Each broken plan of the folder with parts of the sentence that it ends in.
const BROKEN: [(&str, &[&str]); 15] = [
    ("anchor-in-a-wall", &["\"cabin\" stands in a wall", "0'-3\" along the house"]),
    ("dangling-reference", &["line 21, column", "base.windows[0].wall", "did you mean \"w-front\"?"]),
    ("duplicate-id", &["line 15, column", "base.walls[3].id", "base.walls[0]"]),
    ("huge-number", &["line 12, column", "base.walls[0].to[0]", "200 m"]),
    ("later-version", &["line 2, column", "version 1", "not 2"]),
    ("not-a-number", &["line 18, column", "expected value"]),
    ("off-the-grid", &["line 12, column", "base.walls[0].thickness", "6 19/64 in"]),
    ("truncated", &["line 15, column"]),
    ("tub-in-a-wall", &["\"tub-1\" stands in wall \"w-front\"", "along the house"]),
    ("two-anchors-in-one-room", &["\"cabin\" and \"loft\" stand in one space", "along the house"]),
    ("two-included", &["line 21, column", "choices[0].alternates", "here 2 are"]),
    ("unknown-field", &["line 14, column", "base.walls[2].movabel", "did you mean `movable`?"]),
    ("wall-of-no-length", &["line 16, column", "base.walls[4].to", "no length"]),
    ("window-leaves-its-wall", &["\"win-1\" reaches past the end", "along the house"]),
    ("wrong-type", &["line 13, column", "base.walls[1].thickness", "expected a length"]),
];

#[test]
fn every_broken_plan_ends_in_2_and_in_a_sentence_with_its_place() {
    let folder = root().join("tests/fixtures/broken-plans");
    let is_plan = |name: &String| name.ends_with(".json");
    let entries = fs::read_dir(&folder).expect("the folder").map(|entry| entry.expect("readable").file_name());
    let mut names: Vec<String> = entries.map(|name| name.to_string_lossy().into_owned()).filter(is_plan).collect();
    names.sort();
    assert_eq!(names, BROKEN.map(|(name, _)| format!("{name}.json")), "each broken plan is tried here");
    for (name, parts) in BROKEN {
        let path = format!("tests/fixtures/broken-plans/{name}.json");
        for word in ["check", "measure"] {
            let output = mateline(&[word, &path]);
            assert_eq!(output.status.code(), Some(2), "{name}");
            let told = told(&output);
            assert!(parts.iter().all(|part| told.contains(part)), "{name}: {told}");
            assert!(told.lines().all(|line| line.ends_with(&format!(" File: {path}"))), "{name}: {told}");
        }
    }
}

#[test]
fn a_hundred_million_brackets_are_refused_unread() {
    let deep = Changed::new("deep", "");
    fs::write(&deep.path, "[".repeat(100_000_000)).expect("room for 100 MB");
    let output = mateline(&["check", &deep.path]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("95.4 MB; the largest that is opened has 16 MB"), "{}", told(&output));
    fs::write(&deep.path, "[".repeat(1_000_000)).expect("room for 1 MB");
    let output = mateline(&["check", &deep.path]);
    assert_eq!(output.status.code(), Some(2), "deep nesting ends in a sentence, not in a crash");
    assert!(told(&output).contains("line 1, column"), "{}", told(&output));
}

#[test]
fn files_that_are_no_files_end_in_2() {
    for (path, part) in [("nowhere/plan.json", "no such file"), ("sample-plans", "a folder; choose a plan file in it")]
    {
        let output = mateline(&["check", path]);
        assert_eq!(output.status.code(), Some(2));
        assert!(told(&output).contains(part) && told(&output).trim_end().ends_with(path), "{}", told(&output));
    }
    let binary = Changed::new("binary", "");
    fs::write(&binary.path, [0x7b, 0xff, 0xfe]).expect("written");
    let output = mateline(&["measure", &binary.path]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("not text in UTF-8"), "{}", told(&output));
}

#[test]
fn without_a_book_a_home_is_judged_by_the_one_for_its_label() {
    let federal = Changed::demo("federal", "\"legal_kind\": \"state-label\"", "\"legal_kind\": \"federal-label\"");
    for (plan, name) in [(DEMO, "(irc-2021)"), (&federal.path, "(hud-3280)")] {
        for word in ["check", "measure"] {
            let output = mateline(&[word, plan]);
            assert!(printed(&output).contains(name), "{word} {name}: {}{}", printed(&output), told(&output));
        }
    }
    let output = mateline(&["check", &federal.path, "--book", "irc-2021"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("the two are never mixed"), "{}", told(&output));
}

#[test]
fn wrong_words_and_selections_end_in_2() {
    for (words, part) in [
        (&["check"][..], "FILE"),
        (&["check", DEMO, "--select", "flex-room"], "CHOICE=ALTERNATE"),
        (&["check", DEMO, "--select", "flexroom=study"], "did you mean `flex-room`?"),
        (&["check", DEMO, "--select", "flex-room=studdy"], "did you mean `study`?"),
        (&["check", DEMO, "--select", "flex-room=study", "--select", "flex-room=hobby-room"], "answered twice"),
        (&["check", DEMO, "--book", "irc-2020"], "did you mean `irc-2021`?"),
        (&["check", DEMO, "--book", "sample-plans/dunlin-58.json"], "line 1, column"),
        (&["check", DEMO, "--format", "xml"], "json"),
        (&["check", DEMO, "--every", "--select", "flex-room=study"], "cannot be used with"),
        (&["check", DEMO, "--every", "--selection", "lot-14.json"], "cannot be used with"),
        (&["check", DEMO, "--every", "--reversed"], "cannot be used with"),
    ] {
        let output = mateline(words);
        assert_eq!(output.status.code(), Some(2), "{words:?}");
        assert!(told(&output).contains(part), "{words:?}: {}", told(&output));
        assert!(output.stdout.is_empty(), "{words:?}");
    }
}

#[test]
fn a_selection_that_the_plan_declares_impossible_ends_in_2() {
    let text = fs::read_to_string(root().join(DEMO)).expect("the demo home");
    let mut plan: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let bedroom = plan["choices"][0]["alternates"][1].as_object_mut().expect("the fourth bedroom");
    bedroom.insert("needs".into(), serde_json::json!(["hall-bath-fixture=accessible-shower"]));
    let needy = Changed::new("needs", &plan.to_string());
    let output = mateline(&["check", &needy.path, "--select", "flex-room=fourth-bedroom"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("Flex room \"Fourth bedroom\" needs Hall bath"), "{}", told(&output));
    let both = ["--select", "flex-room=fourth-bedroom", "--select", "hall-bath-fixture=accessible-shower"];
    let output = mateline(&[&["check", &needy.path], &both[..]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
}

#[test]
fn a_reader_that_stops_early_is_no_failure() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_mateline"))
        .current_dir(root())
        .args(["measure", DEMO, "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(child.stdout.take());
    let mut told = String::new();
    child.stderr.take().expect("piped").read_to_string(&mut told).expect("text");
    assert!(told.is_empty(), "{told}");
    assert_eq!(child.wait().expect("it ends").code(), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_report_that_cannot_be_written_ends_in_2() {
    for words in [&["check", DEMO][..], &["measure", DEMO, "--format", "json"], &["--help"], &["--version"]] {
        let full = fs::File::options().write(true).open("/dev/full").expect("the device that is always full");
        let mut command = Command::new(env!("CARGO_BIN_EXE_mateline"));
        let output = command.current_dir(root()).args(words).stdout(full).output().expect("the program starts");
        assert_eq!(output.status.code(), Some(2), "{words:?}");
        let told = told(&output);
        assert!(told.starts_with("the report cannot be written: ") && told.lines().count() == 1, "{words:?}: {told}");
    }
}

#[test]
fn faults_of_the_drawing_are_noted_and_do_not_change_the_verdict() {
    let text = fs::read_to_string(root().join(DEMO)).expect("the demo home");
    let mut plan: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let boundary = serde_json::json!({ "id": "nowhere", "from": [400, 60], "to": [410, 60] });
    plan["base"]["open_boundaries"].as_array_mut().expect("open boundaries").push(boundary);
    let loose = Changed::new("loose", &plan.to_string());
    let output = mateline(&["check", &loose.path, "--format", "json"]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    let told = told(&output);
    assert!(told.starts_with("note: the open boundary \"nowhere\" divides nothing"), "{told}");
    assert!(told.trim_end().ends_with(&loose.path) && told.lines().count() == 1, "{told}");
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(report["problems"][0]["elements"], serde_json::json!(["nowhere"]));
    assert_eq!(report["problems"][0]["conflict"], false);
}

#[test]
fn a_plan_without_a_room_ends_in_2() {
    let text = fs::read_to_string(root().join(DEMO)).expect("the demo home");
    let mut plan: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    plan["choices"] = serde_json::json!([]);
    plan["base"] = serde_json::json!({});
    let empty = Changed::new("empty", &plan.to_string());
    let output = mateline(&["check", &empty.path]);
    assert_eq!(output.status.code(), Some(2), "{}{}", told(&output), printed(&output));
    assert_eq!(told(&output), format!("the plan has no room: nothing to judge. File: {}\n", empty.path));
    assert!(output.stdout.is_empty());
}

#[test]
fn a_byte_order_mark_is_no_part_of_a_plan_or_book() {
    let marked = |name: &str, path: &str| {
        let text = fs::read_to_string(root().join(path)).expect("it is there");
        Changed::new(name, &format!("\u{feff}{text}"))
    };
    let plan = marked("marked-plan", DEMO);
    let book = marked("marked-book", BOOK);
    let output = mateline(&["check", &plan.path]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    assert_eq!(printed(&output), printed(&mateline(&["check", DEMO])));
    let output = mateline(&["check", DEMO, "--book", &book.path]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
}

#[test]
fn without_a_display_the_window_says_so_in_one_sentence() {
    for words in [&[][..], &[DEMO]] {
        let output = mateline(words);
        assert_eq!(output.status.code(), Some(2));
        let told = told(&output);
        assert_eq!(told.lines().count(), 1, "{told}");
        assert!(told.contains("no display") && told.contains("mateline check FILE"), "{told}");
    }
    let mut command = Command::new(env!("CARGO_BIN_EXE_mateline"));
    let output = command.current_dir(root()).env("DISPLAY", ":65000").env_remove("WAYLAND_DISPLAY").output();
    let output = output.expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(told(&output).lines().count(), 1, "{}", told(&output));
}

#[test]
fn a_rule_is_explained_and_drawn() {
    let output = mateline(&["explain", "toilet-side"]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    // However its lines are broken.
    let text = printed(&output).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        text.contains(
            "Drawing: The space left of the centre line of the toilet of Bath is 1'-1\"; 1'-3\" is asked for."
        ),
        "{text}"
    );
    assert!(text.contains("`mateline explain toilet-side --svg FILE` draws it."), "{text}");

    let folder = Changed::new("explain-svg", "a plan");
    let file = folder.folder.join("side.svg");
    let path = file.to_str().expect("plain names");
    let output = mateline(&["explain", "toilet-side", "--svg", path, "--book", "planning-guidelines"]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    let drawn = fs::read_to_string(&file).expect("the drawing is written");
    let document = roxmltree::Document::parse(&drawn).unwrap_or_else(|error| panic!("{error}"));
    let texts: Vec<&str> =
        document.descendants().filter(|node| node.has_tag_name("text")).filter_map(|node| node.text()).collect();
    assert!(texts.contains(&"1'-1\" / 1'-6\" MIN"), "the book that was named judges: {texts:?}");
    mateline(&["explain", "toilet-side", "--svg", path, "--book", "planning-guidelines"]);
    assert_eq!(fs::read_to_string(&file).expect("there"), drawn, "the same drawing makes the same bytes");
}

#[test]
fn a_drawing_that_cannot_be_written_overwrites_nothing() {
    let plan = Changed::new("explain-not-svg", "a plan");
    let output = mateline(&["explain", "toilet-side", "--svg", &plan.path]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("ends in .svg"), "{}", told(&output));
    assert_eq!(fs::read_to_string(&plan.path).expect("kept"), "a plan");
    let nowhere = plan.folder.join("nowhere/side.svg");
    let output = mateline(&["explain", "toilet-side", "--svg", nowhere.to_str().expect("plain names")]);
    assert_eq!(output.status.code(), Some(2));
    assert!(told(&output).contains("There is no folder"), "{}", told(&output));
    assert!(printed(&output).is_empty(), "what is asked for is done as a whole");
}

const SPRING: &str = "assets/price-books/dunlin-58-spring.json";

/// Reckoned by hand: 148,900 + 4,850 + 3,200 are 156,950, of which 5.75 % are 9,024.625, halfway between cents; set-up and two
/// modules' freight, 9,400 + 8,300, are not taxed. The lines add up to 183,674.63.
#[test]
fn a_price_shows_its_arithmetic() {
    let words = ["price", DEMO, "--select", "flex-room=fourth-bedroom", "--date", "2026-03-01"];
    let output = mateline(&words);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    let text = printed(&output);
    for part in [
        "Price book: Quillback Homes, retail 2026, effective 2026-01-05\n",
        "Date of the quote: 2026-03-01, good until 2026-03-31\n",
        "Flex room: Fourth bedroom",
        "2 x 4,150.00 (modules)",
        "5.75 % of 156,950.00",
        "9,024.63\n",
        "183,674.63\n",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let json = mateline(&[&words[..], &["--json"]].concat());
    let report: serde_json::Value = serde_json::from_slice(&json.stdout).expect("JSON");
    assert_eq!((&report["mateline_price"], &report["total"]), (&1.into(), &"183674.63".into()));
    assert_eq!(report["base_and_options"], "153750.00");
    assert_eq!(json.stdout, mateline(&[&words[..], &["--format", "json"]].concat()).stdout);
}

/// Reckoned by hand: 146,900 + 4,495 are 151,395; 1,595 sq ft at 0.875 are 1,395.625, told as 1,395.63; 11 windows at 64.50 are
/// 709.50; four bedrooms at 189 are 756; an allowance of 3,200; the credit of 1.5 % is 2,270.925, told as 2,270.93; of
/// 155,185.20 the tax is 8,923.149, told as 8,923.15; with 9,400 and 8,300 that is 181,808.35.
#[test]
fn a_price_book_of_its_own_is_laid_over_the_plan() {
    let words = ["price", DEMO, "--select", "flex-room=fourth-bedroom", "--prices", SPRING, "--date"];
    let output = mateline(&[&words[..], &["2026-04-20"]].concat());
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    let text = printed(&output);
    for part in [
        "effective 2026-03-01, expires on 2026-05-31",
        "good until 2026-05-31",
        "1,395.63\n",
        "-2,270.93\n",
        "181,808.35\n",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    for (day, part) in [("2026-06-01", "expired on 2026-05-31"), ("2026-02-28", "not effective before 2026-03-01")] {
        let output = mateline(&[&words[..], &[day]].concat());
        assert_eq!((output.status.code(), printed(&output).as_str()), (Some(2), ""));
        let told = told(&output);
        assert!(told.contains(part) && told.contains(day) && told.ends_with(&format!("File: {SPRING}\n")), "{told}");
    }
}

#[test]
fn what_has_no_price_ends_in_2() {
    let broken = Changed::new(
        "prices",
        &fs::read_to_string(root().join(SPRING)).expect("the example").replace("oak-plank", "oak-plnk"),
    );
    let cases: [(&[&str], &str); 4] = [
        (&["--prices", &broken.path], "alternates[1].alternate: the choice `flooring` has no alternate `oak-plnk`"),
        (&["--prices", "nowhere.json"], "no such file"),
        (&["--select", "front-porch=porch"], "no alternate `porch`"),
        (&["--date", "2026-02-29"], "is not a day of the calendar"),
    ];
    for (words, part) in cases {
        let output = mateline(&[&["price", DEMO], words].concat());
        assert_eq!((output.status.code(), printed(&output).as_str()), (Some(2), ""), "{words:?}");
        assert!(told(&output).contains(part), "{}", told(&output));
    }
}

#[test]
fn selections_are_sought_in_words_and_told_as_text_and_json() {
    // Of 76,160 selections with four bedrooms that can be sold; a test of plan_proof reckons them by hand.
    let words = ["selections", DEMO, "--where", "bedrooms at least 4 and not front-porch=none", "--limit", "2"];
    let output = mateline(&words);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    let text = printed(&output);
    assert!(text.contains("   49,280  of those have what is asked for\n"), "{text}");
    // 148,900 with the bedroom at 4,850 and the small porch at 6,400; flush doors take off 180.
    assert!(text.contains("\nCHEAPEST\n  USD 159,970  4 bedrooms, 2 baths, "), "{text}");
    assert!(text.contains(
        "      --select flex-room=fourth-bedroom --select front-porch=porch-8x6 --select door-style=flush\n"
    ));
    let json: serde_json::Value =
        serde_json::from_slice(&mateline(&[&words[..], &["--format", "json"]].concat()).stdout).expect("JSON");
    assert_eq!(json["selections"]["found"], "49280");
    assert_eq!(json["found"].as_array().map(Vec::len), Some(2));
    assert_eq!(json["cheapest"]["price"], "159970");
    assert_eq!(json["cheapest"]["not_included"][2], "door-style=flush");
    assert_eq!(json["book"], serde_json::Value::Null);
}

#[test]
fn a_query_that_cannot_be_read_ends_in_2_with_carets_under_the_word() {
    let output = mateline(&["selections", DEMO, "--where", "flex-room=forth-bedroom"]);
    assert_eq!(output.status.code(), Some(2));
    let expected = "\
the query cannot be read, column 11: expected an alternate of `flex-room`: `study`, `fourth-bedroom` or `hobby-room`; \
found `forth-bedroom`; did you mean `fourth-bedroom`?
  flex-room=forth-bedroom
            ^^^^^^^^^^^^^
";
    assert_eq!(told(&output), expected);
    assert!(output.stdout.is_empty());
}
