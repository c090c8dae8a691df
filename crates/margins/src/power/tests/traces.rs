//! Tests of the traces, of starting and emergency, of the site and of the programme.

use super::*;
use crate::power::trace::{self, Phase, PowerTrace};
use rigwright_physics::hoisting::{Hoist, Tackle, TripStand, TripWay};
use rigwright_physics::power::drives::MotorCurrent;
use rigwright_physics::power::site::Aspiration;
use rigwright_well::Emergency;

fn cycle(fit: &Fit, operation: Operation, depth: f64) -> PowerTrace {
    let basis = Basis::new(fit);
    let bottom = fit.well.sections[2].bottom;
    let hole = if operation == Operation::Connection { depth } else { bottom };
    let scene = Scene::new(&basis, sweep::situation(fit, 2, operation, hole, depth));
    trace::cycle(&scene, &mut Off).unwrap().unwrap()
}

fn tackle(fit: &Fit) -> Tackle {
    Tackle { lines: f64::from(fit.rig.line.strung), sheave_factor: fit.rig.line.sheave_factor }
}

/// What speeding up takes, slowing down gives back: a stand costs its weight times its height, over the efficiencies.
#[test]
fn law_lifting_a_stand_costs_its_weight_times_its_height() {
    let mut fit = example("ostrick");
    fit.rig.drawworks.power = 1e8;
    let trace = cycle(&fit, Operation::PullingOut, 3000.0);
    let idle = fit.rig.sets.hotel_load;
    let lifting = trace.points.iter().filter(|point| point.phase == Phase::LiftingString);
    let lifting = PowerTrace { points: lifting.copied().collect() };
    let energy = lifting.energy() - idle * lifting.duration();
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::PullingOut, fit.well.sections[2].bottom, 3000.0));
    let hook = scene.drag(&mut Off).surface_tension + fit.rig.block.weight + fit.rig.drive.weight;
    let chain = fit.rig.drives.chain;
    let efficiency = tackle(&fit).efficiency(&mut Off) * fit.rig.drawworks.efficiency * chain.motor * chain.converter;
    // The ramps begin and end at a hundredth of the draw and not at rest: half a percent of two short ramps.
    assert!((energy * efficiency / (hook * fit.rig.mast.stand) - 1.0).abs() < 2e-3);
}

/// The same trip by the hoisting formulas, which know of no power.
#[test]
fn law_a_trip_takes_as_long_as_the_hoisting_formulas_say() {
    let fit = example("ostrick");
    let basis = Basis::new(&fit);
    let (rig, section) = (&fit.rig, 2);
    let bottom = fit.well.sections[section].bottom;
    let out = trace::trip(&basis, section, Operation::PullingOut);
    let count = (bottom / rig.mast.stand).ceil() as usize;
    let stands: Vec<TripStand> = (1..=count)
        .rev()
        .map(|index| {
            let bit_depth = (index as f64 * rig.mast.stand).min(bottom);
            let situation = sweep::situation(&fit, section, Operation::PullingOut, bottom, bit_depth);
            let string_load = Scene::new(&basis, situation).drag(&mut Off).surface_tension;
            TripStand { bit_depth, length: rig.mast.stand, string_load, hole_speed: situation.pipe_speed }
        })
        .collect();
    let hoist = Hoist {
        power: rig.drawworks.power,
        tackle_efficiency: tackle(&fit).efficiency(&mut Off),
        drum_efficiency: rig.drawworks.efficiency,
        line_speed: *rig.drawworks.block_speed * f64::from(rig.line.strung),
        lines: f64::from(rig.line.strung),
        acceleration: *rig.drawworks.acceleration,
        deceleration: *rig.drawworks.acceleration,
        brake_power: None,
        travelling_weight: rig.block.weight + rig.drive.weight,
        connection: fit.well.sections[section].tripping.connection_time,
    };
    let total = hoist.trip(&stands, TripWay::Out, &mut Off).total();
    assert!((out.duration() / total - 1.0).abs() < 1e-9, "{} {total}", out.duration());
    assert!(out.points.windows(2).all(|pair| pair[1].time >= pair[0].time));
    assert!(out.points.first().unwrap().bit_depth > out.points.last().unwrap().bit_depth);
    assert!(trace::trip(&basis, section, Operation::Drilling).points.is_empty());
}

/// A connection peaks above drilling, since the string is lifted while pumps and drive run on; in slips only the hotel load is left.
#[test]
fn law_a_connection_peaks_off_bottom() {
    let fit = example("ostrick");
    let trace = cycle(&fit, Operation::Connection, 3000.0);
    let peak = trace.peak().unwrap();
    assert_eq!(peak.phase, Phase::OffBottom);
    assert!(peak.load.pumps.power > 0.0 && peak.load.auxiliary.power > 0.0 && peak.load.drawworks.power > 0.0);
    let least = trace.points.iter().map(|point| point.load.total()).fold(f64::INFINITY, f64::min);
    assert!((least - fit.rig.sets.hotel_load).abs() < 1e-6);
    let in_slips = fit.well.sections[2].drilling.connection_time;
    let slips = trace.points.iter().filter(|point| matches!(point.phase, Phase::InSlips | Phase::RaisingBlock));
    let times: Vec<f64> = slips.map(|point| point.time).collect();
    assert!((times.last().unwrap() - times.first().unwrap() - in_slips).abs() < 1e-6);
}

#[test]
fn law_the_peak_flips_exactly_at_the_rating() {
    let mut fit = example("ostrick");
    fit.rig.sets.on_line = 1;
    fit.rig.sets.aspiration = None;
    fit.rig.sets.apparent_rating = Some(1e9);
    let demand = judged(&fit, "power/peak", Operation::PullingOut).demand;
    fit.rig.sets.rating = demand;
    assert_eq!(at_end(&fit, 1, "power/peak", Operation::PullingOut).verdict(), Verdict::Thin);
    fit.rig.sets.rating = demand.next_down();
    assert_eq!(at_end(&fit, 1, "power/peak", Operation::PullingOut).verdict(), Verdict::Short);
    assert!(at_end(&fit, 1, "power/peak-one-set-lost", Operation::PullingOut).room().unwrap() < 0.0);
    assert_eq!(at_end(&fit, 1, "power/peak", Operation::Drilling).verdict(), Verdict::DoesNotArise);
}

/// With thyristors a pump that runs slowly asks more of the generators than of the engines.
#[test]
fn law_direct_current_loads_the_generators() {
    let mut fit = example("ostrick");
    let factor = |fit: &Fit| {
        let basis = Basis::new(fit);
        let scene = Scene::new(&basis, sweep::section_end(fit, 2));
        Load::of(&scene, &mut Off).unwrap().at_bus(fit, &mut Off).power_factor
    };
    let alternating = factor(&fit);
    fit.rig.drives.current = MotorCurrent::Direct;
    let direct = factor(&fit);
    assert!(alternating > 0.9 && direct < 0.75, "{alternating} {direct}");
    fit.rig.sets.power_factor = Some(0.81);
    assert!((factor(&fit) - 0.81).abs() < 1e-12, "the measured one counts");
}

/// At 100 kPa and 25 °C nothing is lost; height takes power away; without the air the answer names what misses.
#[test]
fn law_the_site_derates_the_sets() {
    let mut fit = example("ostrick");
    fit.rig.sets.aspiration = Some(Aspiration::Cooled);
    fit.rig.sets.apparent_rating = Some(1e9);
    let capacity = |fit: &Fit| judged(fit, "power/sets-on-line", Operation::Drilling).limit.capacity;
    let nameplate = f64::from(fit.rig.sets.on_line) * fit.rig.sets.rating;
    // 100 kPa stands at 110.9 m in the standard atmosphere (ISO 2533).
    fit.well.site.altitude = Some(110.9);
    fit.well.site.air_temperature = Some(298.15);
    assert!((capacity(&fit) / nameplate - 1.0).abs() < 1e-5);
    fit.well.site.altitude = Some(0.0);
    assert!((capacity(&fit) / nameplate - 1.0).abs() < 1e-12, "denser air earns nothing");
    fit.well.site.altitude = Some(2000.0);
    assert!(capacity(&fit) < 0.9 * nameplate);
    fit.well.site.altitude = None;
    assert_eq!(at_end(&fit, 1, "power/sets-on-line", Operation::Drilling), Answer::Missing(vec!["site.altitude"]));
    fit.rig.sets.aspiration = Some(Aspiration::Natural);
    assert_eq!(at_end(&fit, 1, "power/peak", Operation::PullingOut), Answer::Missing(vec!["site.altitude", "site.humidity"]));
}

/// By hand: 110/(0.94 x 0.86) = 136.07 kVA, six times that at rest, 816.4 kVA; four generators of 1500 kVA at 0.24 dip by
/// 0.24 x 816.4/6000/(1 + 0.24 x 816.4/6000) = 3.16 %; at 20 % they would start 0.2 x 6000/(0.24 x 0.8) = 6250 kVA.
#[test]
fn law_starting_by_hand() {
    let fit = example("ostrick");
    let judged = judged(&fit, "power/starting", Operation::Drilling);
    assert!((judged.demand / 1e3 - 816.4).abs() < 0.05, "{}", judged.demand);
    assert!((judged.limit.capacity / 1e3 - 6250.0).abs() < 1e-6);
    let mut fit = fit;
    fit.rig.sets.transient_reactance = None;
    fit.rig.largest_motor = None;
    let missing = Answer::Missing(vec!["rig.largest_motor.power", "rig.sets.transient_reactance"]);
    assert_eq!(at_end(&fit, 1, "power/starting", Operation::Drilling), missing);
}

#[test]
fn law_emergency_power_is_the_sum_and_unknown_without_a_part() {
    let mut fit = example("ostrick");
    let ask = |fit: &Fit| at_end(fit, 1, "power/emergency", Operation::Drilling);
    let set = |preventer_control| Emergency { rating: Some(1e5), preventer_control, lights: Some(6e4), brake: Some(0.0) };
    *fit.rig.emergency = set(Some(4e4));
    assert_eq!(ask(&fit).verdict(), Verdict::Thin, "just carried");
    *fit.rig.emergency = set(Some(4.1e4));
    assert_eq!(ask(&fit).verdict(), Verdict::Short);
    *fit.rig.emergency = set(None);
    assert_eq!(ask(&fit), Answer::Missing(vec!["rig.emergency.preventer_control"]));
    // What is known is already too much.
    fit.rig.emergency.lights = Some(1.2e5);
    assert_eq!(ask(&fit).verdict(), Verdict::Short);
}

/// The programme samples a trip at a few depths; the trace goes stand by stand.
#[test]
fn law_the_programme_agrees_with_the_traces() {
    let mut fit = example("tolvane");
    // What no trace tells of: waiting for cement.
    fit.well.sections.iter_mut().flat_map(|section| &mut *section.casing).for_each(|casing| casing.flat_time = 0.0);
    // Nor of the pipe that a liner is run on.
    *fit.well.sections[2].casing = None;
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
    for (section, operation) in [(1, Operation::PullingOut), (2, Operation::PullingOut), (1, Operation::RunningCasing)] {
        let part = crate::power::programme::part(&scene, section, operation).unwrap();
        let trace = trace::trip(&basis, section, operation);
        // The trace counts the last, shorter piece of pipe as a whole one: one in a hundred.
        assert!((part.time() / trace.duration() - 1.0).abs() < 0.01, "{operation:?}");
        assert!((part.energy() / trace.energy() - 1.0).abs() < 0.01, "{operation:?}");
    }
}

#[test]
fn law_the_best_number_of_sets_burns_no_more_than_any_other() {
    let mut fit = example("ostrick");
    let told = |fit: &Fit, name: &str| match at_end(fit, 1, "power/programme", Operation::Drilling) {
        Answer::Told(figures) => figures.iter().find(|figure| figure.name == name).map(|figure| figure.value),
        other => panic!("{other:?}"),
    };
    let best = told(&fit, "fuel with the best number of sets for each operation").unwrap();
    let safe = told(&fit, "fuel with the best number that still carries each operation with one lost").unwrap();
    assert!(best <= safe);
    for sets in 1..=fit.rig.sets.number {
        fit.rig.sets.on_line = sets;
        if let Some(fuel) = told(&fit, "fuel with the sets on line today") {
            assert!(fuel >= best * (1.0 - 1e-12), "{sets}");
        }
    }
    // 10.21 kg per US gallon.
    let carbon = told(&fit, "carbon dioxide with them").unwrap();
    assert!((carbon / (best / 3.785_411_784e-3) / 10.21 - 1.0).abs() < 1e-4);
}

#[test]
fn law_a_rig_without_consumers_is_not_judged() {
    let mut fit = example("ostrick");
    (fit.rig.sets.hotel_load, fit.rig.sets.auxiliary_load) = (0.0, 0.0);
    let still = at_end(&fit, 1, "power/sets-on-line", Operation::Connection);
    assert_eq!(still, Answer::DoesNotArise("nothing draws power"));
}
