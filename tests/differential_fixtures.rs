//! Plans on which Mateline once differed from shapely, or from networkx in its ways, each with what they say of it.
//!
//! Source: shapely (GEOS), whose version stands beside the figures of rooms, and networkx over what shapely makes of the floors;
//! `cargo dev differential` keeps such plans and writes them.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use plan_geometry::{Area, Derived, Measured, ProblemKind, Region, derive};
use plan_model::{Id, Plan, Selection, file};
use serde_json::Value;

/// In a room square to the axes the program is exact. Floats are not: they get a thousandth of a step along the edge.
const EXACT: f64 = 1e-3;
/// Off the axes a face lies within one step of true: an area within one step along the edge.
const SLANTED: f64 = 1.0;
/// Ways are rounded down to the step, and the middle of a door is rounded twice at both ends.
const ROUNDED: f64 = 3.0;

/// The kept plans of a subject by name, with what is expected of each.
fn kept(subject: &str) -> BTreeMap<String, (Plan, Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/differential").join(subject);
    let read = |path: &PathBuf| fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let entries = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let paths: Vec<PathBuf> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    let plan = |path: &PathBuf| {
        let name = path.file_name()?.to_str()?.strip_suffix(".json").filter(|name| !name.ends_with(".expected"))?;
        let plan = file::read(&read(path)).unwrap_or_else(|error| panic!("{name}: {error}"));
        let expected = serde_json::from_str(&read(&path.with_extension("expected.json")));
        Some((name.to_owned(), (plan, expected.unwrap_or_else(|error| panic!("{name}: {error}")))))
    };
    paths.iter().filter_map(plan).collect()
}

/// What of a plan differs from what is expected of it.
fn differences(derived: &Derived, expected: &Value) -> Vec<String> {
    let figures = &expected["figures"];
    let mut differences = Vec::new();
    let unnamed = derived.problems.iter().filter(|problem| problem.kind == ProblemKind::SpaceWithoutRoom).count();
    let spaces = derived.rooms.len() + unnamed;
    if figures["spaces"].as_u64() != u64::try_from(spaces).ok() {
        differences.push(format!("{spaces} spaces, not {}", figures["spaces"]));
    }
    let mut compare = |name: &str, regions: &[&Region], theirs: &Value| {
        let of = |key: &str| theirs[key].as_f64().unwrap_or(f64::NAN);
        #[expect(clippy::cast_precision_loss, reason = "a thousandth of a step along an edge is more than is lost")]
        let ours = regions.iter().map(|region| region.area()).sum::<Area>().square_steps() as f64;
        let square = regions.iter().flat_map(|region| region.sides()).all(|(a, b)| a.x == b.x || a.y == b.y);
        let off = (ours - of("square_steps")) / of("edge_steps");
        let allowed = if square { EXACT } else { SLANTED };
        // A figure that is missing is not a number, and never within anything.
        if off.is_nan() || off.abs() > allowed {
            differences.push(format!("{name} is off by {off:.3} steps along its edge"));
        }
    };
    compare("the footprint", &derived.footprint.iter().collect::<Vec<_>>(), &figures["footprint"]);
    let Some(rooms) = figures["rooms"].as_object() else { panic!("no rooms are expected") };
    for (id, theirs) in rooms {
        let ours = derived.rooms.iter().find(|room| room.id.as_str() == id);
        compare(id, &ours.map(|room| &*room.region).into_iter().collect::<Vec<_>>(), theirs);
    }
    for room in derived.rooms.iter().filter(|room| !rooms.contains_key(room.id.as_str())) {
        differences.push(format!("shapely has no {}", room.id));
    }
    differences
}

#[test]
fn plans_that_once_differed_do_not_differ() {
    let kept = kept("rooms");
    assert!(kept.len() >= 12, "only {} plans were found", kept.len());
    for (name, (plan, expected)) in &kept {
        assert!(
            expected["figures"]["by"].as_str().is_some_and(|by| by.starts_with("shapely ")),
            "{name} has no source"
        );
        let derived = derive(&plan.home(&Selection::default()));
        assert_eq!(differences(&derived, expected), Vec::<String>::new(), "{name}");
    }
}

/// Each figure is compared: another one in its place is told.
#[test]
fn any_other_figure_is_told() {
    for (name, (plan, expected)) in &kept("rooms") {
        let derived = derive(&plan.home(&Selection::default()));
        let rooms = expected["figures"]["rooms"].as_object().into_iter().flat_map(|rooms| rooms.keys());
        let areas = rooms.map(|room| format!("/figures/rooms/{room}/square_steps"));
        let areas = areas.chain(["/figures/footprint/square_steps".to_owned()]);
        for figure in areas.chain(["/figures/spaces".to_owned()]) {
            let mut other = expected.clone();
            let Some(value) = other.pointer_mut(&figure) else { panic!("{name} has no {figure}") };
            *value = match value.as_u64() {
                Some(count) => (count + 1).into(),
                // Off by three steps along an edge that is no longer than the root of its area, sixteen times over.
                None => value.as_f64().map(|area| area + 48.0 * area.sqrt()).into(),
            };
            assert_ne!(differences(&derived, &other), Vec::<String>::new(), "{name}: {figure}");
        }
    }
}

/// A way of ours by the words that its length has in a file of networkx's figures.
fn way(derived: &Derived, words: &str) -> Option<Measured> {
    if let Some(room) = words.strip_prefix("out of ") {
        return derived.ways_out().iter().find(|out| out.room.as_str() == room).map(|out| out.walk.length);
    }
    if let Some((one, other)) = words.split_once(" straight to ") {
        let is_it = |exits: &[Id; 2]| exits[0].as_str() == one && exits[1].as_str() == other;
        return derived.exit_pairs().iter().find(|pair| is_it(&pair.exits)).map(|pair| pair.straight);
    }
    let (one, other) = words.split_once(" to ").unwrap_or_else(|| panic!("no way is called {words}"));
    derived.walk(&one.into(), &other.into()).map(|walk| walk.length)
}

/// What of a plan's ways differs from what is expected of them.
fn differing_ways(derived: &Derived, expected: &Value) -> Vec<String> {
    let figures = expected["figures"].as_object().filter(|figures| !figures.is_empty());
    let figures = figures.unwrap_or_else(|| panic!("no ways are expected"));
    let differs = |(words, theirs): (&String, &Value)| {
        let ours = way(derived, words);
        let is_it = match (ours, theirs.as_f64()) {
            #[expect(clippy::cast_precision_loss, reason = "exact in f64 below 2^53")]
            (Some(ours), Some(theirs)) => {
                (ours.value.steps() as f64 - theirs).abs() <= ours.slack.steps() as f64 + ROUNDED
            }
            (None, None) => theirs.is_null(),
            _ => false,
        };
        (!is_it).then(|| format!("{words}: {ours:?}, not {theirs}"))
    };
    figures.iter().filter_map(differs).collect()
}

#[test]
fn ways_that_once_differed_do_not_differ() {
    let kept = kept("ways");
    assert!(!kept.is_empty(), "no plan was found");
    for (name, (plan, expected)) in &kept {
        let derived = derive(&plan.home(&Selection::default()));
        assert_eq!(differing_ways(&derived, expected), Vec::<String>::new(), "{name}");
        // Each figure is compared: another one in its place is told.
        for words in expected["figures"].as_object().into_iter().flat_map(|figures| figures.keys()) {
            let mut other = expected.clone();
            other["figures"][words] = other["figures"][words].as_f64().map_or(1.0, |steps| steps + 100.0).into();
            assert_eq!(differing_ways(&derived, &other).len(), 1, "{name}: {words}");
        }
    }
}
