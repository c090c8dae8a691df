//! How the cost of a section grows when the well gets twice as deep: the sweep of the mud window over every situation, the range of
//! mud weight, and the nozzle search. `docs/speed.md` has the figures. The well is `ostrick` with every depth of rock, hole and
//! casing times one, two and four, pressures with them, so that each mud weight keeps its meaning.

use divan::{Bencher, black_box};
use rigwright_margins::{Basis, Question, Scene, question, sweep};
use rigwright_physics::Off;
use rigwright_well::Fit;
use rigwright_wellfile::{Disk, read};

fn main() {
    divan::main();
}

const DEPTHS: [u32; 3] = [1, 2, 4];

/// `ostrick`, this many times as deep; it is vertical and has no survey, so its path reaches as deep as it is asked.
fn deeper(times: u32) -> Fit {
    let name = format!("{}/../../examples/ostrick.toml", env!("CARGO_MANIFEST_DIR"));
    let mut fit = match read(&name, None, &Disk) {
        Ok(loaded) => loaded.fit,
        Err(findings) => panic!("{findings:?}"),
    };
    let by = f64::from(times);
    for layer in &mut fit.well.formations {
        layer.top *= by;
        layer.base *= by;
        for ends in [Some(&mut layer.pore), layer.fracture.as_mut(), layer.collapse.as_mut()].into_iter().flatten() {
            *ends = ends.map(|pressure| pressure * by);
        }
    }
    for section in &mut fit.well.sections {
        section.top *= by;
        section.bottom *= by;
        if let Some(casing) = &mut *section.casing {
            casing.top *= by;
            casing.shoe *= by;
        }
    }
    fit
}

fn asked(slug: &str) -> &'static Question {
    match question(slug) {
        Some(question) => question,
        None => panic!("{slug} is in the catalogue"),
    }
}

#[divan::bench(args = DEPTHS)]
fn window_over_all_situations(bencher: Bencher, times: u32) {
    let fit = deeper(times);
    let sides = [asked("circulating/overbalance"), asked("circulating/fracture")];
    let last = fit.well.sections.len() - 1;
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        let situations = sweep::in_section(&fit, last).into_iter().map(|situation| Scene::new(&basis, situation));
        situations.map(|scene| sides.iter().filter(|side| (side.ask)(&scene, &mut Off).judged().is_some()).count()).sum::<usize>()
    });
}

fn section_end(bencher: Bencher, times: u32, slug: &str) {
    let fit = deeper(times);
    let question = asked(slug);
    let last = fit.well.sections.len() - 1;
    bencher.bench_local(|| {
        let basis = Basis::new(black_box(&fit));
        (question.ask)(&Scene::new(&basis, sweep::section_end(&fit, last)), &mut Off).verdict()
    });
}

#[divan::bench(args = DEPTHS)]
fn range_of_mud_weight(bencher: Bencher, times: u32) {
    section_end(bencher, times, "circulating/mud-window");
}

#[divan::bench(args = DEPTHS)]
fn nozzle_search(bencher: Bencher, times: u32) {
    section_end(bencher, times, "circulating/best-nozzles");
}

#[divan::bench(args = DEPTHS)]
fn candidate_muds(bencher: Bencher, times: u32) {
    section_end(bencher, times, "circulating/candidate-muds");
}
