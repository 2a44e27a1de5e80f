//! How long a derived home takes to judge.

use criterion::{Criterion, criterion_group, criterion_main};
use plan_geometry::derive;
use plan_model::{Selection, file};
use plan_rules::{RuleBook, judge};
use std::hint::black_box;

/// The allocator of the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const DUNLIN: &str = include_str!("../../../sample-plans/dunlin-58.json");

/// Judging alone, on figures that were derived anew each time: clear sizes are worked out when a rule asks for them, and
/// so belong to judging.
fn judge_home(criterion: &mut Criterion) {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    let home = plan.home(&Selection::included(&plan));
    let book = RuleBook::built_in("irc-2021").expect("a built-in book");
    criterion.bench_function("judge_home", |bencher| {
        bencher.iter_batched_ref(
            || derive(&home),
            |derived| black_box(judge(&home, derived, &book)),
            criterion::BatchSize::SmallInput,
        );
    });
}

criterion_group!(benches, judge_home);
criterion_main!(benches);
