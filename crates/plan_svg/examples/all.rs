//! x
use plan_svg::*;
fn main() {
    let out = std::env::args().nth(1).expect("x");
    for rule in plan_rules::registry() {
        let ex = plan_rules::Example::of(rule, None).expect("x");
        let d = plan_drawing::draw_example(&ex, 1.0 / 44.0);
        let scale = d.view.width() / (120.0 / 25.4);
        let t = svg(
            &d.drawing,
            &Picture {
                view: d.view,
                scale,
                ground: Some(plan_drawing::Ink::Paper),
                title: rule.name,
                description: &ex.caption(),
            },
        );
        std::fs::write(format!("{out}/{}.svg", rule.id), t).expect("x");
    }
}
