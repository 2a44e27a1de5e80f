fn main() {
    let path = std::env::args().nth(1).unwrap();
    let text = std::fs::read_to_string(path).unwrap();
    let plan = plan_model::file::read(&text).unwrap_or_else(|e| panic!("{e}"));
    let mut selection = plan_model::Selection::included(&plan);
    for a in std::env::args().skip(2) {
        selection = selection.with(&plan, &a.parse().unwrap()).unwrap();
    }
    let home = plan.home(&selection);
    let d = plan_geometry::derive(&home);
    println!("heated {:?}", d.heated_area.map(|a| a.to_square_feet()));
    for p in &d.problems {
        println!("PROBLEM {p}");
    }
    for r in &d.rooms {
        let c = r.sizes.rectangle();
        println!(
            "{:24} {:8.2} {} x {} sq {} q7 {:.1} least70 {:?} pts {} holes {}",
            r.id.to_string(),
            r.floor_area.to_square_feet(),
            c.width.feet_inches(),
            c.length.feet_inches(),
            r.sizes.largest_square().feet_inches(),
            r.sizes.qualifying_area(plan_model::Length::inches(84)).to_square_feet(),
            r.sizes
                .least_dimension(plan_geometry::Area::from_square_steps(
                    70 * plan_geometry::Area::SQUARE_FOOT.square_steps()
                ))
                .map(|l| l.feet_inches().to_string()),
            r.region.outer.len(),
            r.region.holes.len()
        );
        for p in &r.passages {
            println!(
                "   {:?} {} {:?}",
                p.between,
                p.clear_width.value.feet_inches(),
                p.pinch.map(|p| (p.x.to_inches(), p.y.to_inches()))
            );
        }
    }
    let n = 200;
    let t = std::time::Instant::now();
    for _ in 0..n {
        std::hint::black_box(plan_geometry::derive(&home));
    }
    println!("derive {:?}", t.elapsed() / n);
    let t = std::time::Instant::now();
    for _ in 0..n {
        std::hint::black_box(plan.home(&selection));
    }
    println!("home {:?}", t.elapsed() / n);
}
