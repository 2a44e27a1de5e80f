//! The direction of dependencies: the model at the bottom, the program at the top, and each outside library named by
//! the one crate whose business it is.
//!
//! Reads `cargo metadata`. Only what a crate is built with counts; tests may use anything, but for the window's.

use std::{collections::BTreeSet, env, process::Command};

use serde_json::Value;

/// What a crate of the workspace may be built with.
enum May {
    /// These crates of the workspace and no others.
    Use(&'static [&'static str]),
    /// Every crate: it is no part of the program.
    UseAnything,
}

use May::{Use, UseAnything};

/// Every crate of the workspace. A new crate is added here, with a reason to give in DEVELOPERS.md.
const CRATES: &[(&str, May)] = &[
    ("plan_model", Use(&[])),
    ("plan_geometry", Use(&["plan_model"])),
    ("plan_rules", Use(&["plan_model", "plan_geometry"])),
    ("plan_choices", Use(&["plan_model", "plan_geometry", "plan_rules"])),
    ("plan_proof", Use(&["plan_model", "plan_geometry", "plan_rules", "plan_choices"])),
    ("plan_selection", Use(&["plan_model", "plan_geometry", "plan_rules", "plan_choices"])),
    ("plan_edit", Use(&["plan_model", "plan_geometry"])),
    ("plan_drawing", Use(&["plan_model", "plan_geometry", "plan_rules"])),
    ("plan_svg", Use(&["plan_model", "plan_geometry", "plan_rules", "plan_drawing"])),
    (
        "mateline_app",
        Use(&[
            "plan_model",
            "plan_geometry",
            "plan_rules",
            "plan_choices",
            "plan_proof",
            "plan_selection",
            "plan_edit",
            "plan_drawing",
        ]),
    ),
    (
        "mateline",
        Use(&[
            "plan_model",
            "plan_geometry",
            "plan_rules",
            "plan_choices",
            "plan_proof",
            "plan_selection",
            "plan_edit",
            "plan_drawing",
            "plan_svg",
            "mateline_app",
        ]),
    ),
    ("plan_testkit", UseAnything),
    ("plan_dev", UseAnything),
    ("outside_checks", UseAnything),
];

/// An outside library that one crate alone may name.
struct Reserved {
    library: &'static str,
    owner: &'static str,
    /// The kinds of dependency that only the owner may have; the others are free.
    kinds: &'static [Kind],
}

const RESERVED: &[Reserved] = &[
    Reserved { library: "geo", owner: "plan_geometry", kinds: BUILT_WITH },
    Reserved { library: "i_overlay", owner: "plan_geometry", kinds: BUILT_WITH },
    Reserved { library: "i_triangle", owner: "plan_geometry", kinds: BUILT_WITH },
    Reserved { library: "egui", owner: "mateline_app", kinds: EVERY_KIND },
    Reserved { library: "eframe", owner: "mateline_app", kinds: EVERY_KIND },
    Reserved { library: "egui_kittest", owner: "mateline_app", kinds: EVERY_KIND },
    Reserved { library: "rfd", owner: "mateline_app", kinds: EVERY_KIND },
];

/// Libraries that nothing is built with: they serve tests.
const FOR_TESTS_ONLY: &[&str] = &["egui_kittest"];

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Normal,
    Build,
    Dev,
}

/// What a crate is built with.
const BUILT_WITH: &[Kind] = &[Kind::Normal, Kind::Build];
/// Tests as well.
const EVERY_KIND: &[Kind] = &[Kind::Normal, Kind::Build, Kind::Dev];

struct Package {
    name: String,
    dependencies: Vec<(String, Kind)>,
}

impl Package {
    fn read(package: &Value) -> Self {
        let dependencies = package["dependencies"].as_array().expect("a package lists its dependencies");
        let dependency = |dependency: &Value| {
            let kind = match dependency["kind"].as_str() {
                None => Kind::Normal,
                Some("build") => Kind::Build,
                Some("dev") => Kind::Dev,
                Some(other) => panic!("cargo names a kind of dependency that this test does not know: {other}"),
            };
            (text(&dependency["name"]), kind)
        };
        Self { name: text(&package["name"]), dependencies: dependencies.iter().map(dependency).collect() }
    }

    fn is_built_with(&self, library: &str) -> bool {
        self.names(library, BUILT_WITH)
    }

    fn names(&self, library: &str, kinds: &[Kind]) -> bool {
        self.dependencies.iter().any(|(name, kind)| name == library && kinds.contains(kind))
    }
}

fn text(value: &Value) -> String {
    value.as_str().expect("a name is text").to_owned()
}

/// The crates of the workspace, as cargo reads them.
fn packages() -> Vec<Package> {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--no-deps"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo can be started");
    assert!(output.status.success(), "cargo metadata failed: {}", String::from_utf8_lossy(&output.stderr));
    let metadata: Value = serde_json::from_slice(&output.stdout).expect("cargo metadata prints JSON");
    metadata["packages"].as_array().expect("cargo metadata lists packages").iter().map(Package::read).collect()
}

#[test]
fn every_crate_has_its_place_in_the_table() {
    let in_table: BTreeSet<String> = CRATES.iter().map(|(name, _)| (*name).to_owned()).collect();
    let in_workspace: BTreeSet<String> = packages().into_iter().map(|package| package.name).collect();
    assert_eq!(in_workspace, in_table, "the workspace (left) and the table of allowed dependencies (right) differ");
}

#[test]
fn crates_depend_downwards_only() {
    let packages = packages();
    let mut wrong = Vec::new();
    for package in &packages {
        let Some((_, Use(allowed))) = CRATES.iter().find(|(name, _)| *name == package.name) else { continue };
        for other in &packages {
            if package.is_built_with(&other.name) && !allowed.contains(&other.name.as_str()) {
                wrong.push(format!("{} may not use {}", package.name, other.name));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn outside_libraries_are_named_by_their_owner_only() {
    let mut wrong = Vec::new();
    for package in packages() {
        for Reserved { library, owner, kinds } in RESERVED {
            if package.name != *owner && package.names(library, kinds) {
                wrong.push(format!("{} names {library}, which only {owner} may", package.name));
            }
        }
        for library in FOR_TESTS_ONLY {
            if package.is_built_with(library) {
                wrong.push(format!("{} is built with {library}, which is for tests", package.name));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
