//! Named workloads: reading a well, the review of each example, one hydraulics solve, the temperature model by depth, one drag march, one sweep of
//! kick tolerance, the power trace of a trip, a proposal. `docs/speed.md` tells how the figures were taken; the first bench is the yardstick of the rest.

use divan::{Bencher, black_box};
use rigwright_margins::rotating::motions::{self, StringMove};
use rigwright_margins::{Basis, Review, Scene, fields, power, propose, question, sweep};
use rigwright_physics::trajectory::Path;
use rigwright_physics::{Off, Working};
use rigwright_well::{Fit, Operation};
use rigwright_wellfile::{Disk, read};

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    divan::main();
}

fn file(name: &str) -> String {
    format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR"))
}

fn example(name: &str) -> Fit {
    match read(&file(name), None, &Disk) {
        Ok(loaded) => loaded.fit,
        Err(findings) => panic!("{findings:?}"),
    }
}

/// The yardstick: a hundred thousand square roots in a chain, which no machine can skip.
#[divan::bench]
fn yardstick() -> f64 {
    (0..100_000).fold(black_box(2.0_f64), |value, _| (value + 1.0).sqrt())
}

#[divan::bench]
fn reading_a_well(bencher: Bencher) {
    let name = file("ostrick");
    bencher.bench_local(|| read(black_box(&name), None, &Disk).is_ok());
}

#[divan::bench(args = ["ostrick", "tolvane", "quellmere"])]
fn review_without_remedies(bencher: Bencher, name: &str) {
    let fit = example(name);
    bencher.bench_local(|| Review::without_remedies(black_box(&fit)));
}

#[divan::bench(args = ["ostrick", "tolvane"])]
fn review(bencher: Bencher, name: &str) {
    let fit = example(name);
    bencher.bench_local(|| Review::new(black_box(&fit)));
}

fn at_total_depth<'a>(basis: &'a Basis<'a>, operation: Operation) -> Scene<'a> {
    let (last, bottom) = (basis.fit.well.sections.len() - 1, basis.fit.well.total_depth());
    Scene::new(basis, sweep::situation(basis.fit, last, operation, bottom, bottom))
}

#[divan::bench]
fn one_hydraulics_solve(bencher: Bencher) {
    let fit = example("tolvane");
    let basis = Basis::new(&fit);
    bencher
        .bench_local(|| fields::flow::Flow::solve(black_box(&at_total_depth(&basis, Operation::Drilling)), &mut Off).standpipe);
}

/// Temperature of circulation and both columns of a section, prepared and asked, in a well this many times as deep: three hole
/// depths of a fixed number of steps each, whatever the depth.
#[divan::bench(args = [1, 2, 4])]
fn temperature_model(bencher: Bencher, times: u32) {
    let mut fit = example("ostrick");
    for section in &mut fit.well.sections {
        section.top *= f64::from(times);
        section.bottom *= f64::from(times);
        if let Some(casing) = &mut *section.casing {
            casing.top *= f64::from(times);
            casing.shoe *= f64::from(times);
        }
    }
    let Some(question) = question("circulating/temperature") else { panic!("the question is in the catalogue") };
    let last = fit.well.sections.len() - 1;
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        (question.ask)(&Scene::new(&basis, sweep::section_end(&fit, last)), &mut Off).verdict()
    });
}

#[divan::bench]
fn one_drag_march(bencher: Bencher) {
    let fit = example("tolvane");
    let basis = Basis::new(&fit);
    let solve = |scene: &Scene| fields::drag::Drag::solve(scene, &mut Off).surface_tension;
    bencher.bench_local(|| solve(black_box(&at_total_depth(&basis, Operation::PullingOut))));
}

#[divan::bench]
fn one_sweep_of_kick_tolerance(bencher: Bencher) {
    let fit = example("tolvane");
    let last = fit.well.sections.len() - 1;
    let Some(question) = question("control/kick-tolerance") else { panic!("the question is in the catalogue") };
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        let situations = sweep::in_section(&fit, last);
        situations
            .iter()
            .filter(|situation| (question.ask)(&Scene::new(&basis, **situation), &mut Off).judged().is_some())
            .count()
    });
}

/// The surge table, every stand out and in, and casing; and with stands half as long, twice as many depths.
#[divan::bench(args = [1.0, 0.5, 0.25])]
fn surge_table(bencher: Bencher, share_of_a_stand: f64) {
    let mut fit = example("ostrick");
    fit.rig.mast.stand *= share_of_a_stand;
    let basis = Basis::new(&fit);
    let Some(question) = question("circulating/safe-speed") else { panic!("the question is in the catalogue") };
    bencher.bench_local(|| {
        let mut working = Working::default();
        (question.show)(&at_total_depth(black_box(&basis), Operation::Drilling), &mut working);
        working.lines.len()
    });
}

/// The slowest safe speeds of a section without the table.
#[divan::bench(args = ["ostrick", "tolvane", "quellmere"])]
fn safe_speeds(bencher: Bencher, name: &str) {
    let fit = example(name);
    let Some(question) = question("circulating/safe-speed") else { panic!("the question is in the catalogue") };
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        matches!((question.ask)(&at_total_depth(&basis, Operation::Drilling), &mut Off), rigwright_margins::Answer::Told(_))
    });
}

#[divan::bench]
fn power_trace_of_a_trip(bencher: Bencher) {
    let fit = example("ostrick");
    let basis = Basis::new(&fit);
    let last = fit.well.sections.len() - 1;
    bencher.bench_local(|| power::trace::trip(black_box(&basis), last, Operation::PullingOut).points.len());
}

#[divan::bench(args = ["ostrick", "tolvane"], sample_count = 10)]
fn proposal(bencher: Bencher, name: &str) {
    let fit = example(name);
    bencher.bench_local(|| propose::propose(black_box(&fit)).steps.len());
}

/// Jobs, trips stand by stand and line work of a whole well.
#[divan::bench(args = ["ostrick", "tolvane"])]
fn programme(bencher: Bencher, name: &str) {
    let fit = example(name);
    bencher.bench_local(|| Basis::new(black_box(&fit)).programme().steps.len());
}

/// `tolvane` in a hole surveyed at so many stations.
fn surveyed(stations: u32) -> Fit {
    let mut fit = example("tolvane");
    let bottom = fit.well.total_depth();
    let stations: Vec<_> = (0..=stations)
        .map(|index| fit.well.path.at(bottom * f64::from(index) / f64::from(stations)))
        .map(|at| (at.depth, at.inclination, at.azimuth))
        .collect();
    if let Ok(path) = Path::from_stations(&stations) {
        fit.well.path = path;
    }
    fit
}

/// Hook loads of every motion at every third stand of the deepest string, in a hole surveyed at so many stations.
#[divan::bench(args = [10, 100, 1000])]
fn hook_loads_by_stations(bencher: Bencher, stations: u32) {
    let fit = surveyed(stations);
    let last = fit.well.sections.len() - 1;
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        let rows = |motion| motions::moves(&basis, last, motion, &motions::move_depths(&fit, last, motion)).len();
        StringMove::ALL.into_iter().map(rows).sum::<usize>()
    });
}

/// Power through every stand of a trip out, so surveyed: the loads behind it are marched anew at each bit depth.
#[divan::bench(args = [10, 100, 1000])]
fn power_trace_by_stations(bencher: Bencher, stations: u32) {
    let fit = surveyed(stations);
    let last = fit.well.sections.len() - 1;
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        power::trace::trip(&basis, last, Operation::PullingOut).points.len()
    });
}

/// The programme of the well with its trips, stand by stand, so surveyed.
#[divan::bench(args = [10, 100, 1000])]
fn trips_by_stations(bencher: Bencher, stations: u32) {
    let fit = surveyed(stations);
    bencher.bench_local(|| Basis::new(black_box(&fit)).programme().steps.len());
}
