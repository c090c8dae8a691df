//! The circulating questions on the example wells: figures that can be checked by hand, and that verdicts flip at their limits.

use crate::fields::flow::Flow;
use crate::*;
use rigwright_physics::{Line, Off, Working, numerics};
use rigwright_well::{Fit, Operation};
use rigwright_wellfile::{Disk, read};
use std::path::Path;

mod cement;
mod figures;
mod floating;
mod friction;
mod heat;
mod mud;
mod mud_choice;
mod speeds;

const PPG: f64 = 119.826_427;
const PSI: f64 = 6_894.757_29;
const FOOT: f64 = 0.3048;

fn example(name: &str) -> Fit {
    let well = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
    read(&well.to_string_lossy(), None, &Disk).unwrap_or_else(|findings| panic!("{findings}")).fit
}

/// The same with every mud of one weight and one flow curve, whatever pressure and heat do: for sums by hand.
fn plain(name: &str) -> Fit {
    let mut fit = example(name);
    for section in &mut fit.well.sections {
        section.mud.retort = None;
        section.mud.other_rheograms.clear();
    }
    fit
}

fn told(answer: &Answer, name: &str) -> f64 {
    let Answer::Told(figures) = answer else { panic!("{answer:?}") };
    let starts = figures.iter().find(|figure| figure.name.starts_with(name));
    starts.unwrap_or_else(|| panic!("{name}: {answer:?}")).value
}

/// The answer in one situation at the section's end with the bit on bottom.
fn ask(fit: &Fit, slug: &str, section: usize, operation: Operation) -> Answer {
    let bottom = fit.well.sections[section].bottom;
    at(fit, slug, (section, operation, bottom, bottom))
}

fn at(fit: &Fit, slug: &str, (section, operation, hole, bit): (usize, Operation, f64, f64)) -> Answer {
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::situation(fit, section, operation, hole, bit));
    (question(slug).unwrap().ask)(&scene, &mut Off)
}

fn judged(answer: &Answer) -> Judged {
    *answer.judged().unwrap_or_else(|| panic!("{answer:?}"))
}

fn flow(fit: &Fit, section: usize, operation: Operation) -> Flow {
    let basis = Basis::new(fit);
    let bottom = fit.well.sections[section].bottom;
    Flow::solve(&Scene::new(&basis, sweep::situation(fit, section, operation, bottom, bottom)), &mut Off)
}

/// By hand: pore pressure runs straight from 9.6 ppg at 7,000 ft to 10.8 ppg at 11,200 ft, so at 11,000 ft it is
/// (9.6 x 7000 + (10.8 x 11200 - 9.6 x 7000) x 4000/4200)/11000 = 10.7636 ppg, against mud of 11.5 ppg.
#[test]
fn law_overbalance_of_ostrick_comes_out_by_hand() {
    let found = judged(&ask(&plain("ostrick.toml"), "circulating/overbalance", 2, Operation::Connection));
    assert!((found.demand / PPG - 10.7636).abs() < 1e-4, "{found:?}");
    assert!((found.limit.capacity / PPG - 11.5).abs() < 1e-6);
    assert!((found.room() - (11.5 - 10.7636) / 0.3).abs() < 1e-3);
    assert!((found.place.depth().unwrap() / FOOT - 11000.0).abs() < 1e-6);
}

#[test]
fn law_overbalance_flips_where_the_mud_weighs_as_much_as_the_pore_pressure() {
    let fit = example("ostrick.toml");
    let with = |weight: f64| {
        let mut fit = fit.clone();
        fit.well.sections[2].mud.weight = weight;
        ask(&fit, "circulating/overbalance", 2, Operation::PullingOut)
    };
    let edge = numerics::root(|weight| judged(&with(weight)).room(), 10.0 * PPG, 12.0 * PPG).unwrap();
    assert_eq!(with(edge * (1.0 + 1e-9)).verdict(), Verdict::Thin);
    assert_eq!(with(edge * (1.0 - 1e-9)).verdict(), Verdict::Short);
    assert!(edge / PPG > 10.7636, "swab wants more than the still mud: {}", edge / PPG);
}

#[test]
fn law_fracture_flips_where_the_surge_meets_the_rock() {
    let fit = example("ostrick.toml");
    let with = |speed: f64| {
        let mut fit = fit.clone();
        fit.well.sections[2].tripping.running_speed = speed;
        ask(&fit, "circulating/fracture", 2, Operation::RunningIn)
    };
    let edge = numerics::root(|speed| judged(&with(speed)).room(), 0.1, 30.0).unwrap();
    assert_eq!(with(edge * (1.0 - 1e-6)).verdict(), Verdict::Thin);
    assert_eq!(with(edge * (1.0 + 1e-6)).verdict(), Verdict::Short);
}

#[test]
fn law_standpipe_pressure_is_the_sum_of_its_parts() {
    let fit = plain("ostrick.toml");
    for section in 0..3 {
        let pumping = flow(&fit, section, Operation::Circulating);
        let parts = pumping.annular_loss + pumping.string_loss + pumping.tool_loss + pumping.bit_loss + pumping.surface_loss;
        assert!((pumping.standpipe / parts - 1.0).abs() < 1e-12, "no cuttings: both columns weigh the same");
        let drilling = flow(&fit, section, Operation::Drilling);
        assert!(drilling.standpipe > pumping.standpipe, "cuttings make the annulus heavier");
        assert!((drilling.annular_loss - pumping.annular_loss).abs() < 1e-6);
    }
}

/// By hand: five 13/32 in nozzles are 5 x 13²/1303.797 = 0.64811 in²; 11.5 x 450²/(12033.93 x 0.95² x 0.64811²) = 510.5 psi.
#[test]
fn law_bit_loss_of_ostrick_comes_out_by_hand() {
    let found = flow(&example("ostrick.toml"), 2, Operation::Drilling);
    assert!((found.bit_loss / PSI - 510.5).abs() < 0.1, "{}", found.bit_loss / PSI);
}

#[test]
fn law_standpipe_pressure_flips_at_the_weaker_of_liner_and_lines() {
    let mut fit = example("ostrick.toml");
    let standpipe = flow(&fit, 2, Operation::Drilling).standpipe;
    let slug = "circulating/standpipe-pressure";
    fit.rig.surface_lines.rating = Some(standpipe * (1.0 + 1e-9));
    assert_eq!(ask(&fit, slug, 2, Operation::Drilling).verdict(), Verdict::Thin);
    fit.rig.surface_lines.rating = Some(standpipe * (1.0 - 1e-9));
    let short = ask(&fit, slug, 2, Operation::Drilling);
    assert_eq!((short.verdict(), judged(&short).limit.name), (Verdict::Short, "rating of the surface lines"));
    fit.rig.surface_lines.rating = None;
    assert_eq!(ask(&fit, slug, 2, Operation::Drilling), Answer::Missing(vec!["rig.surface_lines.rating"]));
}

#[test]
fn law_cleaning_flips_where_the_flow_is_the_smallest_that_cleans() {
    let mut fit = example("ostrick.toml");
    let slug = "circulating/cleaning";
    let demand = judged(&ask(&fit, slug, 1, Operation::Drilling)).demand;
    fit.well.sections[1].drilling.flow_rate = demand * (1.0 + 1e-9);
    assert_eq!(ask(&fit, slug, 1, Operation::Drilling).verdict(), Verdict::Thin);
    fit.well.sections[1].drilling.flow_rate = demand * (1.0 - 1e-9);
    assert_eq!(ask(&fit, slug, 1, Operation::Drilling).verdict(), Verdict::Short);
}

#[test]
fn law_a_deviated_hole_wants_more_flow() {
    let deviated = example("tolvane.toml");
    let mut upright = deviated.clone();
    upright.well.path = rigwright_physics::trajectory::Path::vertical();
    let wanted = |fit: &Fit| judged(&ask(fit, "circulating/cleaning", 1, Operation::Drilling)).demand;
    assert!(wanted(&deviated) > 1.5 * wanted(&upright));
}

#[test]
fn law_pressure_runs_without_a_step_and_moving_pipe_pushes_and_pulls_alike() {
    let fit = example("tolvane.toml");
    let path = &fit.well.path;
    let pressure = |flow: &Flow, depth: f64| flow.pressure_at(depth, path.vertical_depth_at(depth));
    for operation in [Operation::Drilling, Operation::Connection, Operation::PullingOut, Operation::RunningIn] {
        let flow = flow(&fit, 2, operation);
        for piece in &flow.pieces {
            let (above, below) = (pressure(&flow, piece.annulus.bottom - 1e-6), pressure(&flow, piece.annulus.bottom + 1e-6));
            assert!((above - below).abs() < 1.0, "{operation:?} at {}", piece.annulus.bottom);
        }
        assert!((flow.bottom_pressure - pressure(&flow, fit.well.sections[2].bottom)).abs() < 1e-6);
    }
    let mut even = fit.clone();
    even.well.sections[2].tripping.running_speed = even.well.sections[2].tripping.pulling_speed;
    let (swab, surge) = (flow(&even, 2, Operation::PullingOut), flow(&even, 2, Operation::RunningIn));
    assert!(swab.annular_loss < 0.0 && (swab.annular_loss + surge.annular_loss).abs() < 1e-6);
}

#[test]
fn law_what_nobody_gave_is_missing_and_never_holds() {
    let fit = example("ostrick.toml");
    let mut silent = fit.clone();
    silent.well.sections[2].mud.gels = None;
    let gels = ask(&silent, "circulating/break-circulation", 2, Operation::Connection);
    assert_eq!(gels, Answer::Missing(vec!["section[].mud.gels"]));

    let mut bare = fit.clone();
    bare.well.formations[2].fracture = None;
    let fracture = ask(&bare, "circulating/fracture", 2, Operation::Drilling);
    assert_eq!(fracture, Answer::Missing(vec!["formation[].fracture"]));
    bare.well.sections[2].mud.weight = 20.0 * PPG;
    assert_eq!(ask(&bare, "circulating/fracture", 2, Operation::Drilling).verdict(), Verdict::Short, "the shoe test is passed");

    let mut blind = fit.clone();
    blind.well.sections[2].mud.rheogram.readings.clear();
    for slug in ["circulating/overbalance", "circulating/fracture", "circulating/standpipe-pressure", "circulating/cleaning"] {
        let operation = if slug.ends_with("overbalance") { Operation::Connection } else { Operation::Drilling };
        assert_eq!(ask(&blind, slug, 2, operation), Answer::Missing(vec!["section[].mud.readings"]), "{slug}");
    }

    let mut poor = fit.clone();
    poor.well.kick.intensity = None;
    poor.rig.pits.barite = None;
    let barite = ask(&poor, "circulating/weight-up", 2, Operation::Drilling);
    assert_eq!(barite, Answer::Missing(vec!["kick.intensity", "rig.pits.barite"]));

    let mut tool = fit;
    tool.well.sections[2].string[1].kind = rigwright_well::PartKind::Motor;
    let standpipe = ask(&tool, "circulating/standpipe-pressure", 2, Operation::Drilling);
    assert_eq!(standpipe, Answer::Missing(vec!["section[].string[].tool_loss"]));
}

#[test]
fn law_breaking_the_gel_asks_more_of_the_rock_than_still_mud() {
    let mut fit = example("ostrick.toml");
    fit.well.sections[2].mud.gels = Some([3.0, 8.0]);
    let still = judged(&ask(&fit, "circulating/fracture", 2, Operation::Connection));
    let gel = judged(&ask(&fit, "circulating/break-circulation", 2, Operation::Connection));
    assert!(gel.demand > still.demand && gel.room() < still.room());
}

/// By hand: 11.5 to 12.0 ppg with barite of 4.2 sg (35.05 ppg) takes 35.05 x 0.5/(35.05 - 12.0) = 0.7603 lb per gallon.
#[test]
fn law_barite_to_weight_up_comes_out_by_hand() {
    let fit = example("ostrick.toml");
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
    let annulus: f64 = scene.annuli().iter().map(|piece| piece.capacity() * piece.length()).sum();
    let bore = |diameter: f64| std::f64::consts::FRAC_PI_4 * diameter * diameter;
    let string: f64 = scene.string().iter().map(|piece| bore(piece.pipe.inner_diameter()) * (piece.bottom - piece.top)).sum();
    let volume = annulus + string + fit.rig.pits.active.unwrap();
    let found = judged(&ask(&fit, "circulating/weight-up", 2, Operation::Drilling));
    assert!((found.demand / (volume * 0.7603 * PPG) - 1.0).abs() < 1e-3, "{found:?}");
}

#[test]
fn law_the_working_comes_to_the_same_answer() {
    for name in ["ostrick.toml", "tolvane.toml"] {
        let fit = example(name);
        let basis = Basis::new(&fit);
        for question in circulating::SYSTEM.questions() {
            for operation in Operation::ALL {
                let bottom = fit.well.sections[1].bottom;
                let scene = Scene::new(&basis, sweep::situation(&fit, 1, operation, bottom, bottom));
                let mut working = Working::default();
                let shown = (question.show)(&scene, &mut working);
                assert_eq!(shown, (question.ask)(&scene, &mut Off), "{} {operation:?}", question.slug);
                let steps = working.lines.iter().filter(|line| matches!(line, Line::Step { .. } | Line::Given { .. })).count();
                let told = matches!(shown, Answer::Judged(_) | Answer::Told(_));
                assert!(!told || steps > 0, "{} {operation:?} shows no step", question.slug);
            }
        }
    }
}

#[test]
fn law_every_knob_named_exists() {
    for question in circulating::SYSTEM.questions() {
        for name in question.knobs {
            assert!(rigwright_wellfile::knob(name).is_some(), "{}: {name}", question.slug);
        }
    }
}

/// The chain that the trade teaches first: 10 ppg at 7,000 ft is 3,636.4 psi (12/231 psi/ft per ppg, NIST SP 811; 3,605 by
/// a gradient rounded to 0.515 psi/ft). A formation at 3,500 psi is then overbalanced, one at 4,000 psi underbalanced.
#[test]
fn published_ten_pounds_at_seven_thousand_feet() {
    let mut fit = example("ostrick.toml");
    let depth = 7000.0 * FOOT;
    fit.well.sections.truncate(1);
    fit.well.formations.truncate(1);
    let section = &mut fit.well.sections[0];
    (section.bottom, section.mud.weight, *section.casing) = (depth, 10.0 * PPG, None);
    let with = |pore: f64| {
        let mut fit = fit.clone();
        let layer = &mut fit.well.formations[0];
        (layer.top, layer.base, layer.pore, layer.collapse) = (0.0, depth, [0.0, pore * PSI], None);
        judged(&ask(&fit, "circulating/overbalance", 0, Operation::Connection))
    };
    // As a pressure at that depth.
    let pressure = |weight: f64| weight * rigwright_physics::STANDARD_GRAVITY * depth / PSI;
    let (over, under) = (with(3500.0), with(4000.0));
    assert!((pressure(over.limit.capacity) - 3636.4).abs() < 0.05);
    assert!((pressure(over.limit.capacity) - 3605.0).abs() > 0.5, "the rounded gradient is not what we compute");
    assert!(over.room() > 0.0 && (pressure(over.demand) - 3500.0).abs() < 0.05);
    assert!(under.room() < 0.0 && (pressure(under.demand) - 4000.0).abs() < 0.05);
}
