//! How long a derived home takes to judge.

use criterion::{Criterion, criterion_group, criterion_main};
use plan_geometry::{Derived, derive};
use plan_model::{Home, Plan, Selection, file};
use plan_rules::{RuleBook, judge};
use std::hint::black_box;

/// The allocator of the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const DUNLIN: &str = include_str!("../../../sample-plans/dunlin-58.json");

fn dunlin() -> Plan {
    file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"))
}

/// Every figure is derived anew before each time, and asked for: judging is what comes on top.
fn derived_whole(home: &Home<'_>) -> Derived {
    let derived = derive(home);
    let _ = black_box(derived.measures());
    derived
}

/// Judging by the model code.
fn judge_home(criterion: &mut Criterion) {
    let plan = dunlin();
    let home = plan.home(&Selection::included(&plan));
    let book = RuleBook::built_in("irc-2021").expect("a built-in book");
    criterion.bench_function("judge_home", |bencher| {
        bencher.iter_batched_ref(
            || derived_whole(&home),
            |derived| black_box(judge(&home, derived, &book)),
            criterion::BatchSize::SmallInput,
        );
    });
}

/// Judging by every book that comes with the program.
fn judge_home_by_all_books(criterion: &mut Criterion) {
    let plan = dunlin();
    let home = plan.home(&Selection::included(&plan));
    let books: Vec<RuleBook> = RuleBook::built_in_ids().filter_map(RuleBook::built_in).collect();
    criterion.bench_function("judge_home_by_all_books", |bencher| {
        bencher.iter_batched_ref(
            || derived_whole(&home),
            |derived| {
                books.iter().map(|book| black_box(judge(&home, derived, book)).is_ok()).filter(|judged| *judged).count()
            },
            criterion::BatchSize::SmallInput,
        );
    });
}

criterion_group!(benches, judge_home, judge_home_by_all_books);
criterion_main!(benches);
