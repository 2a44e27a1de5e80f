//! Checks of the whole program against figures and programs from outside the project. Each test names its source.
//!
//! One program of tests, since linking one for each file would take longer than running them all.

#![cfg(test)]

mod alarms;
mod ceilings_and_heat;
mod clear_openings;
mod clear_sizes;
mod daylight;
mod degenerate;
mod demo_home;
mod dependency_direction;
mod differential_fixtures;
mod every_measure;
mod fixture_space;
mod heated_arithmetic;
mod incremental;
mod joints;
mod laws;
mod leaves;
mod long_residence;
mod low_ceilings;
mod modules;
mod openings;
mod plan_files;
mod reach;
mod reversed;
mod room_graph;
mod sample_plans;
mod shapes;
mod sweeps;
mod walking;
