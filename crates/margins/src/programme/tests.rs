//! The jobs of the example wells: their order, their times and their line work against sums by hand.

use super::cuts::{plan, stretches};
use super::*;
use crate::circulating::slowed;
use crate::fields::drag::surface_tension;
use crate::power::trace;
use crate::{Scene, sweep};
use rigwright_physics::Working;
use rigwright_physics::hoisting::{TripStand, TripWay};
use rigwright_well::{DriveKind, Operation};

fn programme(fit: &Fit) -> Programme {
    Basis::new(fit).programme().clone()
}

#[test]
fn law_jobs_follow_each_other() {
    for name in ["ostrick", "tolvane"] {
        let fit = crate::example(name);
        let programme = programme(&fit);
        let (mut clock, mut hole) = (0.0, 0.0);
        for step in &programme.steps {
            assert!((step.start - clock).abs() < 1e-6);
            assert!(step.time >= 0.0 && step.line_work >= 0.0, "{step:?}");
            assert!(step.hole >= hole && step.from <= step.hole && step.to <= step.hole, "{step:?}");
            (clock, hole) = (step.end(), step.hole);
        }
        assert!((hole - fit.well.total_depth()).abs() < 1e-9);
        // The bit is where the last job has left it, but for strings that stay or are changed out of the hole.
        for pair in programme.steps.windows(2) {
            let left = pair[0].job == Job::RunCasing || pair[1].section > pair[0].section || pair[0].job == Job::Flat;
            assert!(left || (pair[0].to - pair[1].from).abs() < 1e-9, "{pair:?}");
        }
    }
}

/// What a section is drilled with shows in its jobs.
#[test]
fn law_bits_cores_and_short_trips_are_jobs() {
    let mut fit = crate::example("tolvane");
    let count = |fit: &Fit, job| outline(fit, 1).iter().filter(|step| step.job == job).count();
    let (drills, outs) = (count(&fit, Job::Drill), count(&fit, Job::PullOut));
    fit.well.sections[1].drilling.bits += 2;
    assert_eq!((count(&fit, Job::Drill), count(&fit, Job::PullOut)), (drills + 2, outs + 2));
    fit.well.sections[1].tripping.short_trips += 1;
    assert_eq!(count(&fit, Job::PullOut), outs + 3);
    fit.well.sections[1].drilling.cored = 20.0;
    assert_eq!((count(&fit, Job::Core), count(&fit, Job::PullOut)), (1, outs + 4));
    let drilled: f64 = outline(&fit, 1).iter().filter(|step| matches!(step.job, Job::Drill | Job::Core)).map(Step::way).sum();
    assert!((drilled - (fit.well.sections[1].bottom - fit.well.sections[1].top)).abs() < 1e-9);
    // All of it cored: nothing is drilled, and no bit is changed for the barrel.
    fit.well.sections[1].drilling.cored = fit.well.sections[1].bottom - fit.well.sections[1].top;
    assert_eq!((count(&fit, Job::Drill), count(&fit, Job::Core)), (0, 1));
}

/// Definition: loads and speeds taken straight between depths a stand apart hardly differ from those at every stand.
#[test]
fn law_a_trip_takes_what_a_look_at_each_of_its_stands_says() {
    let (mut slowed_stands, mut never) = (0, 0);
    for (name, thicker) in
        [("ostrick", 1.0), ("ostrick", 2.0), ("ostrick", 4.0), ("tolvane", 1.0), ("tolvane", 8.0), ("quellmere", 2.0)]
    {
        let mut fit = crate::example(name);
        for section in &mut fit.well.sections {
            let mud = &mut *section.mud;
            for rheogram in std::iter::once(&mut mud.rheogram).chain(&mut mud.other_rheograms) {
                rheogram.readings.iter_mut().for_each(|reading| reading.dial *= thicker);
            }
        }
        let basis = Basis::new(&fit);
        for section in 0..fit.well.sections.len() {
            for operation in [Operation::PullingOut, Operation::RunningIn] {
                // Not at a whole number of stands from surface.
                let hole = 0.973 * fit.well.sections[section].bottom;
                let trip = time::Trip { operation, rigged_for: operation, between: (0.0, hole), hole };
                let told = time::trip(&basis, section, &trip, &mut Off);
                let at = |depth: f64| Scene::new(&basis, sweep::situation(&fit, section, operation, hole, depth));
                let lengths = time::stands((0.0, hole), fit.rig.mast.stand);
                let depths: Vec<f64> = lengths.iter().map(|(depth, _)| *depth).collect();
                let given = at(hole).situation.pipe_speed;
                let speeds = slowed(&at(hole), operation, &depths, given).unwrap();
                let stand = |((bit_depth, length), speed): (&(f64, f64), &f64)| TripStand {
                    bit_depth: *bit_depth,
                    length: *length,
                    string_load: surface_tension(&at(*bit_depth)).max(0.0),
                    hole_speed: if *speed > 0.0 { *speed } else { given },
                };
                let stands: Vec<TripStand> = lengths.iter().zip(&speeds).map(stand).collect();
                let way = if operation == Operation::PullingOut { TripWay::Out } else { TripWay::In };
                let hoist = time::hoist(&at(hole), fit.well.sections[section].tripping.connection_time, &mut Off);
                let (all, few) = (hoist.trip(&stands, way, &mut Off).total(), told.time.total());
                let slow = speeds.iter().filter(|speed| **speed > 0.0 && **speed < given).count();
                let none = speeds.iter().filter(|speed| **speed <= 0.0).count();
                let what = format!("{name} {thicker} {section} {operation:?}: {few} {all}, {told:?} {slow} {none}");
                // Beside a stand where no speed is safe some take hours.
                assert!(none > 0 || (few / all - 1.0).abs() < 1e-3, "{what}");
                assert!(told.slowed.abs_diff(slow) <= 2 && told.unsafe_stands.abs_diff(none) <= 2, "{what}");
                slowed_stands += if none == 0 { slow } else { 0 };
                never += none;
            }
        }
    }
    assert!(slowed_stands > 100 && never > 20, "{slowed_stands} {never}");
}

/// A trip of whole stands takes as long as the trace of its power, which is worked out another way.
#[test]
fn law_a_trip_takes_as_long_as_its_power_trace() {
    let mut fit = crate::example("ostrick");
    fit.rig.mast.stand = fit.well.sections[2].bottom / 120.0;
    *fit.rig.drawworks.brake_power = None;
    let basis = Basis::new(&fit);
    let hole = fit.well.sections[2].bottom;
    for operation in [Operation::PullingOut, Operation::RunningIn] {
        let trip = time::Trip { operation, rigged_for: operation, between: (0.0, hole), hole };
        let told = time::trip(&basis, 2, &trip, &mut Off);
        let traced = trace::trip(&basis, 2, operation).duration();
        assert_eq!((told.slowed, told.unsafe_stands), (0, 0));
        assert!((told.time.total() / traced - 1.0).abs() < 1e-9, "{operation:?} {} {traced}", told.time.total());
    }
}

/// Casing on other lines than those of the rig: its trip, its power and its place in the programme know of them, and
/// nothing else does. Where the drum sets the speed of the empty block, that goes as one over the lines.
#[test]
fn law_casing_is_timed_and_powered_on_its_own_lines() {
    let mut fit = crate::example("ostrick");
    *fit.rig.drawworks.brake_power = None;
    (fit.rig.drawworks.power, *fit.rig.drawworks.acceleration) = (1e9, 1e4);
    let casing = fit.well.sections[2].casing.as_mut().unwrap();
    casing.joint_length = casing.shoe / 250.0;
    let (shoe, joint, hole) = (casing.shoe, casing.joint_length, fit.well.sections[2].bottom);
    let operation = Operation::RunningCasing;
    let ran = |fit: &Fit| {
        let basis = Basis::new(fit);
        let trip = time::Trip { operation, rigged_for: operation, between: (0.0, shoe), hole };
        let told = time::trip(&basis, 2, &trip, &mut Off);
        assert_eq!((told.slowed, told.unsafe_stands), (0, 0));
        let traced = trace::trip(&basis, 2, operation).duration();
        assert!((told.time.total() / traced - 1.0).abs() < 1e-9, "{} {traced}", told.time.total());
        traced
    };
    let own = ran(&fit);
    let before = programme(&fit);
    fit.well.sections[2].casing.as_mut().unwrap().lines = Some(12);
    let raised = |lines: f64| joint * lines / (*fit.rig.drawworks.block_speed * f64::from(fit.rig.line.strung));
    let expected = 250.0 * (raised(12.0) - raised(10.0));
    assert!(((ran(&fit) - own) / expected - 1.0).abs() < 1e-3);
    for (was, is) in before.steps.iter().zip(&programme(&fit).steps) {
        let of_it = was.section == 2 && was.job == Job::RunCasing;
        assert_eq!((is.time - was.time).abs() > 1.0, of_it, "{:?}", was.job);
        // Line work by API RP 9B is that of the hook: it knows of no lines.
        assert!((is.line_work - was.line_work).abs() < 1e-6);
    }
}

/// A stand that swab slows down goes at the speed at which swab takes all of the room.
#[test]
fn law_swab_slows_a_trip_down() {
    let mut fit = crate::example("ostrick");
    let hole = fit.well.sections[2].bottom;
    let trip = time::Trip { operation: Operation::PullingOut, rigged_for: Operation::PullingOut, between: (0.0, hole), hole };
    let slow = time::trip(&Basis::new(&fit), 2, &trip, &mut Off);
    (*fit.rig.drawworks.block_speed, fit.rig.drawworks.power) = (4.0, 1e8);
    fit.well.sections[2].tripping.pulling_speed = 4.0;
    let fast = time::trip(&Basis::new(&fit), 2, &trip, &mut Off);
    assert!(fast.slowed > 0 && fast.time.total() < slow.time.total());
    // Without a window nothing is known to slow it down.
    fit.well.sections[2].mud.rheogram.readings.clear();
    let blind = time::trip(&Basis::new(&fit), 2, &trip, &mut Off);
    assert_eq!(blind.slowed, 0);
    assert!(blind.time.loaded < fast.time.loaded);
}

/// Drilling time by hand: length over rate, and a connection a stand.
#[test]
fn law_drilling_time_is_length_over_rate_and_connections() {
    let mut fit = crate::example("ostrick");
    fit.well.sections[0].drilling.reamed = 0;
    let programme = programme(&fit);
    let step = programme.section(0).find(|step| step.job == Job::Drill).copied().unwrap();
    let drilling = fit.well.sections[0].drilling;
    let rotating = step.way() / drilling.penetration_rate;
    let stands = step.way() / fit.rig.mast.stand;
    let (way, speed, acceleration) = (drilling.off_bottom, drilling.off_bottom_speed, *fit.rig.drawworks.acceleration);
    let a_connection = drilling.connection_time + 2.0 * (way / speed + speed / acceleration);
    assert!((step.time - rotating - stands * a_connection).abs() < 1e-6);
    fit.well.sections[0].drilling.reamed = 2;
    let reamed = self::programme(&fit).section(0).find(|step| step.job == Job::Drill).copied().unwrap();
    let (stand, speed) = (fit.rig.mast.stand, drilling.reaming_speed);
    assert!((reamed.time - step.time - stands * 4.0 * (stand / speed + speed / acceleration)).abs() < 1e-6);
}

/// Trips in and out of a section are together a round trip; a kelly works the line twice as much as a top drive that
/// does not ream (API RP 9B; derived from the way of the block).
#[test]
fn law_line_work_of_the_jobs_adds_up() {
    let mut fit = crate::example("ostrick");
    fit.well.sections[1].drilling.reamed = 0;
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 1));
    let string = line::tripped(&scene, &mut Off).unwrap();
    let round =
        |depth| rigwright_physics::hoisting::line_work(rigwright_physics::hoisting::LineJob::RoundTrip(depth), &string, &mut Off);
    let (top, bottom) = (fit.well.sections[1].top, fit.well.sections[1].bottom);
    let of = |job| basis.programme().section(1).filter(move |step| step.job == job).map(|step| step.line_work).sum::<f64>();
    assert!((of(Job::RunIn) / (0.5 * round(top)) - 1.0).abs() < 1e-12);
    assert!((of(Job::PullOut) / (0.5 * round(bottom)) - 1.0).abs() < 1e-12);
    assert!((of(Job::Drill) / (round(bottom) - round(top)) - 1.0).abs() < 1e-12);
    let mut kelly = fit.clone();
    kelly.rig.drive.kind = DriveKind::RotaryTable;
    let drilled = programme(&kelly).section(1).filter(|step| step.job == Job::Drill).map(|step| step.line_work).sum::<f64>();
    assert!((drilled / of(Job::Drill) - 2.0).abs() < 1e-12);
}

/// The sum of what is between cuts is the work of the programme; no cut comes later than the rule lets it where a chance
/// comes in time, and a rule of half the work never cuts less often.
#[test]
fn law_cuts_keep_the_rule() {
    let fit = crate::example("ostrick");
    let programme = programme(&fit);
    let all: f64 = programme.steps.iter().map(|step| step.line_work).sum();
    let longest = stretches(&fit, &programme).iter().map(|stretch| stretch.work).fold(0.0, f64::max);
    assert!((stretches(&fit, &programme).iter().map(|stretch| stretch.work).sum::<f64>() / all - 1.0).abs() < 1e-12);
    let mut last = usize::MAX;
    for share in [0.05, 0.1, 0.2, 0.5, 1.0, 2.0] {
        let cut_work = longest.max(share * all);
        let today = 0.3 * cut_work;
        let plan = plan(&fit, &programme, (cut_work, today));
        let cut: f64 = plan.cuts().map(|cut| cut.since).sum();
        assert!(((cut + plan.since) / (all + today) - 1.0).abs() < 1e-12);
        assert!(plan.cuts().all(|cut| cut.since <= cut_work * (1.0 + 1e-12)), "{plan:?}");
        assert!(plan.since <= cut_work * (1.0 + 1e-12));
        assert!(plan.cuts().count() <= last);
        last = plan.cuts().count();
    }
    assert_eq!(last, 0);
}

/// Slips stand between the cuts, as many as the rule asks for where there are chances enough.
#[test]
fn law_slips_stand_between_cuts() {
    let mut fit = crate::example("ostrick");
    let programme = programme(&fit);
    let all: f64 = programme.steps.iter().map(|step| step.line_work).sum();
    fit.rig.line.slips = 2;
    let plan = plan(&fit, &programme, (0.6 * all, 0.0));
    assert!(plan.cuts().count() == 1);
    let slips: Vec<_> = plan.slips.iter().filter(|slip| !slip.cut).collect();
    assert!(!slips.is_empty());
    // Three slips take up the line that the whole rule cuts: 20 ton-miles a foot for line of 1 3/8 in (worksheet after RP 9B).
    let (ton_mile, foot) = (2000.0 * 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY * 1609.344, 0.3048);
    let lap = std::f64::consts::PI * (fit.rig.drawworks.drum.unwrap() + fit.rig.line.diameter);
    for slip in slips {
        let third = 0.6 * all / (20.0 * ton_mile / foot) / 3.0;
        assert!((slip.length.unwrap() - third).abs() <= lap / 6.0 * (1.0 + 1e-9));
    }
}

/// A liner is run on pipe, which comes out again; its weight counts once.
#[test]
fn law_a_liner_goes_in_on_pipe() {
    let mut fit = crate::example("ostrick");
    let whole = programme(&fit);
    let shoe = fit.well.sections[1].casing.as_ref().unwrap().shoe;
    fit.well.sections[2].casing.as_mut().unwrap().top = shoe - 100.0;
    let liner = programme(&fit);
    let run = |programme: &Programme| programme.section(2).find(|step| step.job == Job::RunCasing).copied().unwrap();
    assert!(run(&liner).time < run(&whole).time, "stands go in faster than joints");
    assert!(run(&liner).line_work < run(&whole).line_work, "pipe is lighter than casing");
    let last = liner.section(2).filter(|step| step.job == Job::PullOut).last().copied().unwrap();
    assert!((last.from - (shoe - 100.0)).abs() < 1e-9 && last.line_work > 0.0);
    // By hand: the block carries itself there and back, the pipe and the excess of the liner once.
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
    let string = line::tripped(&scene, &mut Off).unwrap();
    let casing = fit.well.sections[2].casing.as_ref().unwrap();
    let buoyancy = 1.0 - fit.well.sections[2].mud.weight / rigwright_physics::tubular::STEEL_DENSITY;
    let weight = casing.linear_mass * rigwright_physics::STANDARD_GRAVITY * buoyancy;
    let excess = (weight - string.buoyed_weight) * (casing.shoe - casing.top);
    let depth = casing.shoe;
    let by_hand =
        0.5 * depth * (string.stand + depth) * string.buoyed_weight + 2.0 * depth * (string.travelling_weight + 0.5 * excess);
    assert!((run(&liner).line_work / by_hand - 1.0).abs() < 1e-12);
}

#[test]
fn law_the_working_gives_the_same_times() {
    let fit = crate::example("tolvane");
    let basis = Basis::new(&fit);
    for step in &basis.programme().steps {
        let mut working = Working::default();
        assert!((time::of(&basis, step, &mut working) - step.time).abs() < 1e-9);
        assert!((line::work(&basis, step, &mut working) - step.line_work).abs() <= 1e-9 * step.line_work);
    }
}
