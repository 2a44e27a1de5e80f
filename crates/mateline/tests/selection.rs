//! `mateline selection` as another program meets it: kept, shown, signed, ordered, refused.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const DEMO: &str = "sample-plans/dunlin-58.json";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn mateline(words: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_mateline"));
    command.current_dir(root()).args(words).output().expect("the program starts")
}

fn told(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("sentences are text")
}

fn printed(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("reports are text")
}

/// What a run printed that ended as expected.
fn ends_in(code: i32, words: &[&str]) -> String {
    let output = mateline(words);
    assert_eq!(output.status.code(), Some(code), "{words:?}: {}{}", printed(&output), told(&output));
    printed(&output)
}

/// What a run said that ended in 2.
fn refused(words: &[&str]) -> String {
    let output = mateline(words);
    assert_eq!(output.status.code(), Some(2), "{words:?}: {}", printed(&output));
    assert!(output.stdout.is_empty(), "{words:?}");
    told(&output)
}

/// A folder of its own that goes with the test.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("mateline-selection-{}-{name}", std::process::id()));
        fs::create_dir_all(&folder).expect("a temporary folder");
        Self(folder)
    }

    fn file(&self, name: &str) -> String {
        self.0.join(name).to_str().expect("plain names").to_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

const BEDROOM: [&str; 2] = ["--select", "flex-room=fourth-bedroom"];
const FOR_LOT_14: [&str; 4] = ["--buyer", "Lot 14", "--date", "2026-03-02"];

/// A selection with the fourth bedroom, reversed, in a file.
fn keep(folder: &Folder) -> String {
    let file = folder.file("lot-14.json");
    ends_in(0, &[&["selection", DEMO, "--reversed", "--save", &file], &BEDROOM[..], &FOR_LOT_14].concat());
    file
}

#[test]
fn a_kept_selection_is_the_one_that_check_and_measure_take() {
    let folder = Folder::new("taken");
    let file = keep(&folder);
    for word in ["check", "measure"] {
        let by_file = ends_in(0, &[word, DEMO, "--selection", &file]);
        assert_eq!(by_file, ends_in(0, &[&[word, DEMO, "--reversed"], &BEDROOM[..]].concat()));
        assert!(by_file.contains("Reversed: mirrored left to right"), "{by_file}");
        let json = ends_in(0, &[word, DEMO, "--selection", &file, "--format", "json"]);
        let report: serde_json::Value = serde_json::from_str(&json).expect("JSON");
        assert_eq!(report["reversed"], true);
        assert!(refused(&[word, DEMO, "--selection", &file, "--reversed"]).contains("--reversed"));
    }
    let shown = ends_in(0, &["selection", DEMO, &file]);
    for part in [
        "Buyer: Lot 14",
        "Reversed",
        "Flex room: Fourth bedroom",
        "+4,850",
        "153,750",
        "The plan is as it was on 2026-03-02.",
    ] {
        assert!(shown.contains(part), "{part}: {shown}");
    }
}

#[test]
fn nothing_is_written_over() {
    let folder = Folder::new("frozen");
    let file = keep(&folder);
    let another = [&["selection", DEMO, "--save", &file], &FOR_LOT_14[..]].concat();
    let before = fs::read(&file).expect("it was kept");
    assert!(refused(&another).contains("A file of this name is there already"));
    assert_eq!(fs::read(&file).expect("it is there"), before);
    let signing = ["selection", DEMO, &file, "--sign", "R. Alder", "--date", "2026-03-05", "--save", &file];
    assert!(ends_in(0, &signing).contains("SIGNED by R. Alder on 2026-03-05: 153,750 USD"));
    let signed = fs::read(&file).expect("it is there");
    for words in [&another[..], &signing] {
        let sentence = refused(words);
        assert!(sentence.contains("was signed by R. Alder on 2026-03-05 and is frozen"), "{sentence}");
    }
    assert_eq!(fs::read(&file).expect("it is there"), signed);
}

#[test]
fn what_is_changed_after_signing_is_a_numbered_order() {
    let folder = Folder::new("orders");
    let file = keep(&folder);
    ends_in(0, &["selection", DEMO, &file, "--sign", "R. Alder", "--date", "2026-03-05", "--save", &file]);
    let change = ["selection", DEMO, &file, "--select", "flex-room=study", "--date", "2026-04-01"];
    let shown = ends_in(0, &change);
    assert!(shown.contains("CHANGE ORDER 1 of 2026-04-01"), "{shown}");
    assert!(!ends_in(0, &["selection", DEMO, &file]).contains("CHANGE ORDER"), "shown, not saved");
    ends_in(0, &[&change[..], &["--save", &file]].concat());
    ends_in(0, &["selection", DEMO, &file, "--as-drawn", "--date", "2026-04-02", "--save", &file]);
    let report: serde_json::Value =
        serde_json::from_str(&ends_in(0, &["selection", DEMO, &file, "--json"])).expect("JSON");
    assert_eq!(report["mateline_selection_report"], 1);
    assert_eq!(report["signed"]["total"], "153750");
    assert_eq!(report["change_orders"][0]["difference"], "-4850");
    assert_eq!(report["change_orders"][1]["changes"][0]["reversed"], false);
    assert_eq!(report["agreed_total"], report["price_now"]);
    assert_eq!(report["reversed"], false);
    let again = ["selection", DEMO, &file, "--select", "flex-room=study", "--date", "2026-04-03"];
    assert!(refused(&again).contains("nothing is changed"));
    assert!(refused(&change).contains("a change order is not dated before that"));
}

#[test]
fn a_changed_plan_is_told_and_what_is_gone_is_not_judged() {
    let folder = Folder::new("changed");
    let file = keep(&folder);
    let text = fs::read_to_string(root().join(DEMO)).expect("the demo home");
    let plan = folder.file("plan.json");
    fs::write(&plan, text.replace("\"4850\"", "\"5100\"")).expect("a plan");
    let shown = ends_in(0, &["selection", &plan, &file]);
    assert!(shown.contains("Flex room: Fourth bedroom cost 4,850 and costs 5,100 now (+250)."), "{shown}");
    assert!(shown.contains("By the plan as it is now: 154,000 USD"), "{shown}");
    let output = mateline(&["check", &plan, "--selection", &file]);
    assert!(told(&output).starts_with("note: Flex room: Fourth bedroom cost 4,850"), "{}", told(&output));
    fs::write(
        &plan,
        text.replace("\"fourth-bedroom\"", "\"bedroom-four\"").replace("=fourth-bedroom", "=bedroom-four"),
    )
    .expect("a plan");
    let shown = ends_in(1, &["selection", &plan, &file]);
    assert!(shown.contains("NO LONGER HOLDS"), "{shown}");
    let sentence = refused(&["check", &plan, "--selection", &file]);
    assert!(sentence.contains("no longer has the alternate `fourth-bedroom`"), "{sentence}");
}

#[test]
fn what_is_not_stated_or_no_selection_is_refused() {
    let folder = Folder::new("refused");
    assert!(refused(&["selection", DEMO, "--date", "2026-03-02"]).contains("--buyer LABEL"));
    assert!(refused(&["selection", DEMO, "--buyer", "Lot 14"]).contains("--date"));
    assert!(refused(&["selection", DEMO, "--buyer", "Lot 14", "--date", "2026-02-30"]).contains("not a day"));
    assert!(refused(&["selection", DEMO, DEMO]).contains("this is no selection file"));
    let file = folder.file("empty-label.json");
    let unnamed = ["selection", DEMO, "--buyer", " ", "--date", "2026-03-02", "--save", &file];
    assert!(refused(&unnamed).contains("buyer: expected a name"));
    assert!(!Path::new(&file).exists());
}
