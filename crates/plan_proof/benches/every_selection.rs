//! How long it takes to prove every selection of a plan, and how that grows with their number.

use std::ops::ControlFlow;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use plan_geometry::derive;
use plan_model::{AlternateRef, Plan, Selection, file};
use plan_proof::prove;
use plan_rules::{RuleBook, judge};
use plan_testkit::{Random, block_of_choices};
use std::hint::black_box;

/// The allocator of the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const DUNLIN: &str = include_str!("../../../sample-plans/dunlin-58.json");

/// Columns and rows of rooms with a choice of three each: about 10^3, 10^6, 10^9, 10^12 and 10^15 selections.
const BLOCKS: [(usize, usize); 5] = [(6, 1), (6, 2), (6, 3), (5, 5), (8, 4)];

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

fn book() -> RuleBook {
    RuleBook::built_in("irc-2021").expect("a built-in book")
}

fn homes_proven(plan: &Plan, book: &RuleBook) -> usize {
    prove(plan, book, &mut |_| ControlFlow::Continue(())).map(|proof| proof.homes).expect("the book is for the plan")
}

/// The demo home, all 276,480 selections of it.
fn every_selection(criterion: &mut Criterion) {
    let (plan, book) = (dunlin(), book());
    let mut group = criterion.benchmark_group("proof");
    group.sample_size(10);
    group.bench_function("every_selection", |bencher| bencher.iter(|| homes_proven(black_box(&plan), &book)));
    group.finish();
}

/// One of its selections after the other, drawn at random: what the proof saves doing as often as there are selections.
fn one_selection(criterion: &mut Criterion) {
    let (plan, book) = (dunlin(), book());
    let drawn = |index: u64| {
        let mut random = Random::for_plan(58, index);
        plan.choices.iter().fold(Selection::included(&plan), |selection, choice| {
            let places: Vec<usize> = (0..choice.alternates.len()).collect();
            let alternate = choice.alternates[random.one_of(&places)].id.clone();
            selection.with(&plan, &AlternateRef { choice: choice.id.clone(), alternate }).expect("the plan has it")
        })
    };
    let selections: Vec<Selection> = (0..100).map(drawn).collect();
    let mut next = selections.iter().cycle();
    criterion.bench_function("judge_one_selection", |bencher| {
        bencher.iter(|| {
            let home = plan.home(next.next().expect("they go round"));
            black_box(judge(&home, &derive(&home), &book)).is_ok()
        });
    });
}

/// Ever more rooms, each with a choice of three.
fn by_selections(criterion: &mut Criterion) {
    let book = book();
    let mut group = criterion.benchmark_group("proof_by_rooms_of_three_alternates");
    group.sample_size(10);
    for (columns, rows) in BLOCKS {
        let plan = block_of_choices(columns, rows);
        group.bench_function(BenchmarkId::from_parameter(plan.choices.len()), |bencher| {
            bencher.iter(|| homes_proven(black_box(&plan), &book));
        });
    }
    group.finish();
}

criterion_group!(benches, every_selection, one_selection, by_selections);
criterion_main!(benches);
