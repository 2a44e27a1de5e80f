use plan_geometry::{MeasureName, derive};
use plan_model::{AlternateRef, Selection, file};
const DUNLIN: &str = include_str!("../sample-plans/dunlin-58.json");
#[test]
fn dump() {
    let plan = file::read(DUNLIN).unwrap_or_else(|error| panic!("{error}"));
    for pick in ["", "owner-bath-layout=soaking-tub", "water-closet-room=room-36x66", "flex-room=fourth-bedroom"] {
        let mut sel = Selection::included(&plan);
        if !pick.is_empty() {
            let a: AlternateRef = pick.parse().expect("x");
            sel = sel.with(&plan, &a).expect("x");
        }
        let d = derive(&plan.home(&sel));
        println!("== {pick}");
        for m in d.measures() {
            if m.name < MeasureName::ToiletSide || m.name > MeasureName::ClosetDepth {
                continue;
            }
            let sp: Vec<String> = m
                .marks
                .iter()
                .map(|k| match k {
                    plan_geometry::Mark::Span(s) => format!("{:?}", s.map(|p| (p.x.to_inches(), p.y.to_inches()))),
                    plan_geometry::Mark::Ground(s) => {
                        format!("G{:?}", s.iter().map(|p| (p.x.to_inches(), p.y.to_inches())).collect::<Vec<_>>())
                    }
                    _ => String::new(),
                })
                .collect();
            let am = match &m.amount {
                plan_geometry::Amount::Length(l) => format!("{} ~{}", l.value.to_inches(), l.slack.steps()),
                o => format!("{o:?}"),
            };
            println!("{} {:?} {} {}", m.name.word(), m.of, am, sp.join(" "));
        }
    }
}
