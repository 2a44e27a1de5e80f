#![allow(missing_docs)]
use plan_geometry::derive;
use plan_model::*;
use plan_rules::*;
use plan_testkit::*;
use serde_json::json;
#[test]
fn perf() {
    let l = Length::inches;
    let mut home = SmallHome::new("bedroom", l(20 * 124), l(144)).ceiling(l(96));
    let uses = ["bedroom","bedroom","bedroom","bedroom","living","dining","kitchen","hall","bath","bath","study","hobby","laundry","closet","closet","pantry","utility","mechanical","toilet"];
    for (i, u) in uses.iter().enumerate() {
        let x = 6 + 124 * (i as i64 + 1);
        home = home.element("walls", json!({"id": format!("p{i}"), "kind":"partition","from":[x, 3],"to":[x,153],"thickness":4}))
            .element("rooms", json!({"id": format!("r{i}"), "name": format!("{u} {i}"), "use": u, "at":[x+60, 70]}));
    }
    for _ in 0..12 {
        home = home.window(Side::Front, &WindowSpec{operation:"single-hung", width:l(60), height:l(60), clear:None, sill:Some(l(24))});
        home = home.window(Side::Front, &WindowSpec{operation:"single-hung", width:l(36), height:l(60), clear:None, sill:Some(l(24))});
    }
    for _ in 0..6 { home = home.door(Side::Back, &DoorSpec{operation:"hinged", width:l(36), height:l(80), clear:None}); }
    let plan = home.plan();
    let s = Selection::included(&plan);
    let h = plan.home(&s);
    let d = derive(&h);
    println!("rooms {} problems {:?}", d.rooms.len(), d.problems.len());
    let book = RuleBook::built_in("irc-2021").unwrap();
    for _ in 0..3 {
        let t = std::time::Instant::now();
        for _ in 0..2000 { std::hint::black_box(judge(&h, &d, &book).unwrap()); }
        let e = t.elapsed() / 2000;
        println!("judge {:?} for {} verdicts", e, judge(&h, &d, &book).unwrap().verdicts.len());
    }
    let t = std::time::Instant::now();
    for _ in 0..200 { std::hint::black_box(derive(&h)); }
    println!("derive {:?}", t.elapsed() / 200);
    let t = std::time::Instant::now();
    for _ in 0..200 { for r in &d.spaces { std::hint::black_box(r.sizes.qualifying_area(l(84))); } }
    println!("qualifying x{} {:?}", d.spaces.len(), t.elapsed() / 200);
    let t = std::time::Instant::now();
    for _ in 0..200 { for r in &d.spaces { std::hint::black_box(r.sizes.least_dimension(Area70())); } }
    println!("least {:?}", t.elapsed() / 200);
    let t = std::time::Instant::now();
    for _ in 0..200 { for r in &d.spaces { std::hint::black_box(r.sizes.least_dimension_line(Area70())); } }
    println!("line {:?}", t.elapsed() / 200);
    let t = std::time::Instant::now();
    for _ in 0..200 { for r in &d.spaces { std::hint::black_box(r.sizes.rectangle()); } }
    println!("rect {:?}", t.elapsed() / 200);
}
#[allow(non_snake_case)]
fn Area70() -> plan_geometry::Area { plan_geometry::Area::from_square_steps(70 * plan_geometry::Area::SQUARE_FOOT.square_steps()) }
