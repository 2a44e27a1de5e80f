use plan_edit::hit::Hit;
use plan_edit::snap::Pace;
use plan_edit::*;
use plan_model::*;
use std::time::Instant;
fn time(name: &str, mut f: impl FnMut()) {
    for _ in 0..200 {
        f();
    }
    let n = 5000;
    let t = Instant::now();
    for _ in 0..n {
        f();
    }
    println!("{name}: {:.2} us", t.elapsed().as_secs_f64() * 1e6 / n as f64);
}
fn main() {
    let d = Document::new(file::read(include_str!("../../../sample-plans/dunlin-58.json")).unwrap());
    let d = apply(&d, &Command::Choose("flex-room=fourth-bedroom".parse().unwrap())).unwrap();
    time("plan clone+drop", || {
        std::hint::black_box(Plan::clone(&d.plan));
    });
    time("home", || {
        std::hint::black_box(d.home());
    });
    for w in ["flex-wall", "bedroom-4-closet-wall"] {
        time(w, || {
            std::hint::black_box(apply(&d, &Command::MoveWall { wall: w.into(), by: Length::inches(3) }).unwrap());
        });
        let (mut tool, _) = Tool::Idle.on(
            Event::PointerDown { at: Point::inches(570, 200), hit: Some(Hit::Wall { id: w.into(), movable: true }) },
            &d,
        );
        let mut i = 0;
        time("  drag event", || {
            i = (i + 1) % 16;
            let (t, e) = std::mem::take(&mut tool).on(
                Event::PointerMoved {
                    at: Point::inches(570 + i - 8, 200),
                    pace: Pace::Normal,
                    tolerance: Length::ZERO,
                },
                &d,
            );
            assert!(e == Effect::ShowAgain || i == 0 || true);
            tool = t;
        });
    }
    let b = Document::new(file::read(include_str!("../tests/plans/bevel.json")).unwrap());
    for w in ["bevel", "skew", "slant"] {
        time(w, || {
            std::hint::black_box(apply(&b, &Command::MoveWall { wall: w.into(), by: Length::from_steps(64000) })).ok();
        });
        let mut no = 0;
        for k in -400..400 {
            if let Err(e) = apply(&b, &Command::MoveWall { wall: w.into(), by: Length::from_steps(k * 640) }) {
                if no == 0 {
                    println!("{e}");
                }
                no += 1;
            }
        }
        println!("{w}: {no} of 800 refused");
    }
    time("read plan", || {
        std::hint::black_box(0);
    });
}
