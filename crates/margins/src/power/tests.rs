//! Tests of the power questions, on the demo wells.

mod traces;

use crate::power::SYSTEM;
use crate::power::load::Load;
use crate::{Answer, Basis, Judged, Question, Scene, Scope, Verdict, example, sweep};
use rigwright_physics::{Off, Working};
use rigwright_well::{Fit, Operation};

fn question(slug: &str) -> &'static Question {
    SYSTEM.questions().find(|question| question.slug == slug).unwrap()
}

fn at_end(fit: &Fit, section: usize, slug: &str, operation: Operation) -> Answer {
    let question = question(slug);
    let bottom = fit.well.sections[section].bottom;
    let basis = Basis::new(fit);
    let situation = match question.scope {
        Scope::Situation => sweep::situation(fit, section, operation, bottom, bottom),
        Scope::Section | Scope::Rig => sweep::section_end(fit, section),
    };
    (question.ask)(&Scene::new(&basis, situation), &mut Off)
}

fn judged(fit: &Fit, slug: &str, operation: Operation) -> Judged {
    *at_end(fit, 1, slug, operation).judged().unwrap()
}

#[test]
fn law_the_working_gives_the_same_answer() {
    let fit = example("ostrick");
    let basis = Basis::new(&fit);
    for section in 0..fit.well.sections.len() {
        let bottom = fit.well.sections[section].bottom;
        for operation in Operation::ALL {
            for question in SYSTEM.questions() {
                let scene = Scene::new(&basis, sweep::situation(&fit, section, operation, bottom, bottom));
                let asked = (question.ask)(&scene, &mut Off);
                assert_eq!((question.show)(&scene, &mut Working::default()), asked, "{section} {operation:?} {}", question.slug);
            }
        }
    }
}

/// By hand from the definitions: pressure x flow over both efficiencies, torque x speed over one, and what always runs.
#[test]
fn law_the_load_is_the_sum_of_its_consumers() {
    let fit = example("ostrick");
    let basis = Basis::new(&fit);
    let bottom = fit.well.sections[1].bottom;
    let scene = Scene::new(&basis, sweep::situation(&fit, 1, Operation::Drilling, bottom, bottom));
    let load = Load::of(&scene, &mut Off).unwrap();
    let (sets, chain) = (&fit.rig.sets, fit.rig.drives.chain);
    let efficiency = chain.gear * chain.motor * chain.converter;
    let pumps = scene.flow(&mut Off).standpipe * scene.situation.flow_rate / fit.rig.pump.mechanical_efficiency / efficiency;
    let drive = scene.drag(&mut Off).surface_torque * scene.situation.rotary_speed / efficiency;
    let total = pumps + drive + sets.hotel_load + sets.auxiliary_load;
    assert!((load.total() / total - 1.0).abs() < 1e-12, "{load:?} {total}");
    let still = Scene::new(&basis, sweep::situation(&fit, 1, Operation::Connection, bottom, bottom));
    assert!((Load::of(&still, &mut Off).unwrap().total() - sets.hotel_load).abs() < 1e-9);
}

#[test]
fn law_the_drawworks_draw_no_more_than_they_have() {
    let mut fit = example("ostrick");
    fit.well.sections[2].tripping.pulling_speed = 10.0;
    let basis = Basis::new(&fit);
    let bottom = fit.well.sections[2].bottom;
    let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::PullingOut, bottom, bottom));
    let drawworks = Load::of(&scene, &mut Off).unwrap().drawworks.power;
    let chain = fit.rig.drives.chain;
    assert!((drawworks - fit.rig.drawworks.power / (chain.motor * chain.converter)).abs() < 1e-6);
}

#[test]
fn law_sets_flip_exactly_at_their_rating() {
    let mut fit = example("ostrick");
    fit.rig.sets.on_line = 1;
    fit.rig.sets.aspiration = None;
    fit.rig.sets.apparent_rating = Some(1e9);
    let demand = judged(&fit, "power/sets-on-line", Operation::Drilling).demand;
    fit.rig.sets.rating = demand;
    assert_eq!(at_end(&fit, 1, "power/sets-on-line", Operation::Drilling).verdict(), Verdict::Thin);
    fit.rig.sets.rating = demand.next_down();
    assert_eq!(at_end(&fit, 1, "power/sets-on-line", Operation::Drilling).verdict(), Verdict::Short);
}

#[test]
fn law_with_one_set_lost_there_is_one_set_less() {
    let mut fit = example("ostrick");
    fit.rig.sets.on_line = 3;
    let all = judged(&fit, "power/sets-on-line", Operation::Drilling);
    let lost = judged(&fit, "power/one-set-lost", Operation::Drilling);
    assert!((lost.limit.capacity / all.limit.capacity - 2.0 / 3.0).abs() < 1e-12);
    fit.rig.sets.on_line = 1;
    let lost = judged(&fit, "power/one-set-lost", Operation::Drilling);
    assert!(lost.limit.capacity.abs() < 1e-9 && lost.room() < 0.0);
}

#[test]
fn law_an_unknown_generator_is_missing_unless_the_engine_is_short() {
    let mut fit = example("ostrick");
    fit.rig.sets.apparent_rating = None;
    let ask = |fit: &Fit| at_end(fit, 1, "power/sets-on-line", Operation::Drilling);
    assert_eq!(ask(&fit), Answer::Missing(vec!["rig.sets.apparent_rating"]));
    fit.rig.sets.rating = 1e3;
    assert_eq!(ask(&fit).verdict(), Verdict::Short);
}

#[test]
fn law_a_poor_power_factor_makes_the_generators_govern() {
    let mut fit = example("ostrick");
    fit.rig.sets.apparent_rating = Some(fit.rig.sets.rating);
    fit.rig.sets.power_factor = Some(0.6);
    let judged = judged(&fit, "power/sets-on-line", Operation::Drilling);
    assert!((judged.limit.capacity - 0.6 * f64::from(fit.rig.sets.on_line) * fit.rig.sets.rating).abs() < 1e-6);
}

/// At a point of the maker's curve the rate is the maker's, so the stock lasts by plain division.
#[test]
fn law_fuel_lasts_stock_over_rate_and_flips_at_the_delivery() {
    let mut fit = example("ostrick");
    fit.rig.sets.on_line = 2;
    let load = judged(&fit, "power/sets-on-line", Operation::Drilling).demand;
    let last = *fit.rig.sets.fuel.last().unwrap();
    fit.rig.sets.rating = load / 2.0 / last.load;
    let fuel = |fit: &Fit| at_end(fit, 1, "power/fuel", Operation::Drilling);
    let lasts = fit.rig.pits.fuel.unwrap() / (2.0 * last.rate);
    let capacity = fuel(&fit).judged().unwrap().limit.capacity;
    assert!((capacity / lasts - 1.0).abs() < 1e-9, "{capacity} {lasts}");
    fit.rig.pits.resupply = Some(capacity);
    assert_eq!(fuel(&fit).verdict(), Verdict::Thin);
    fit.rig.pits.resupply = Some(capacity.next_up());
    assert_eq!(fuel(&fit).verdict(), Verdict::Short);
    fit.rig.pits.fuel = None;
    assert_eq!(fuel(&fit), Answer::Missing(vec!["rig.pits.fuel"]));
}

/// The fullest of so many bus sections takes its sets with it: one section a set is one set lost, one section for all is
/// a blackout.
#[test]
fn law_a_lost_bus_section_takes_its_sets() {
    let mut fit = example("ostrick");
    fit.rig.sets.buses = None;
    assert_eq!(at_end(&fit, 1, "power/bus-lost", Operation::Drilling), Answer::Missing(vec!["rig.sets.buses"]));
    (fit.rig.sets.on_line, fit.rig.sets.number) = (5, 5);
    let of = |fit: &Fit, slug| judged(fit, slug, Operation::Drilling).limit.capacity;
    for (buses, left) in [(5, 4.0), (3, 3.0), (2, 2.0), (9, 4.0)] {
        fit.rig.sets.buses = Some(buses);
        assert!((of(&fit, "power/bus-lost") / of(&fit, "power/sets-on-line") - left / 5.0).abs() < 1e-12, "{buses}");
    }
    fit.rig.sets.buses = Some(1);
    assert_eq!(at_end(&fit, 1, "power/bus-lost", Operation::Drilling).verdict(), Verdict::DoesNotArise);
}

/// Thrusters are a consumer like any other on a floating rig; after the failure they and the hotel load are what is asked.
#[test]
fn law_thrusters_are_carried_with_the_rest_and_after_a_failure() {
    let mut fit = example("quellmere");
    let with = |fit: &mut Fit, power: f64| {
        fit.rig.sets.station_load = Some(power);
        judged(fit, "power/sets-on-line", Operation::Drilling).demand
    };
    assert!((with(&mut fit, 2e6) - with(&mut fit, 0.0) - 2e6).abs() < 1e-3);
    assert_eq!(at_end(&fit, 1, "power/station-keeping", Operation::Drilling).verdict(), Verdict::DoesNotArise);
    with(&mut fit, 2e6);
    (fit.rig.sets.buses, fit.rig.sets.aspiration, fit.rig.sets.apparent_rating) = (Some(2), None, Some(1e12));
    let left = f64::from(fit.rig.sets.on_line / 2);
    let demand = fit.rig.sets.hotel_load + 2e6;
    fit.rig.sets.rating = demand / left;
    assert_eq!(at_end(&fit, 1, "power/station-keeping", Operation::Drilling).verdict(), Verdict::Thin);
    fit.rig.sets.rating = (demand / left) * (1.0 - 1e-12);
    assert_eq!(at_end(&fit, 1, "power/station-keeping", Operation::Drilling).verdict(), Verdict::Short);
    // On one bus nothing is left.
    (fit.rig.sets.buses, fit.rig.sets.rating) = (Some(1), 1e9);
    assert_eq!(at_end(&fit, 1, "power/station-keeping", Operation::Drilling).verdict(), Verdict::Short);
    fit.rig.sets.buses = None;
    assert_eq!(at_end(&fit, 1, "power/station-keeping", Operation::Drilling), Answer::Missing(vec!["rig.sets.buses"]));
    fit.rig.sets.station_load = None;
    assert_eq!(at_end(&fit, 1, "power/station-keeping", Operation::Drilling), Answer::Missing(vec!["rig.sets.station_load"]));
    let land = example("ostrick");
    assert_eq!(at_end(&land, 1, "power/station-keeping", Operation::Drilling).verdict(), Verdict::DoesNotArise);
}
