fn main() {
    let p = std::env::args().nth(1).unwrap();
    let t = std::fs::read_to_string(&p).unwrap();
    let plan = plan_model::file::read(&t).unwrap_or_else(|e| panic!("{e}"));
    std::fs::write(p, plan_model::file::write(&plan)).unwrap();
}
