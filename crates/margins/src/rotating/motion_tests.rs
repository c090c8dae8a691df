//! Motions, friction of readings and lock-up on the example wells.

use super::motions::{BAND, MoveRow, StringMove, moves};
use crate::hoisting::tackle;
use crate::{Answer, Basis, Scene, Verdict, question, sweep};
use rigwright_physics::hoisting::BlockMotion;
use rigwright_physics::{Off, Working};
use rigwright_well::{Fit, Friction, HookLoadReading, Motion, Operation};

fn ask(fit: &Fit, slug: &str, section: usize) -> Answer {
    let basis = Basis::new(fit);
    (question(slug).unwrap().ask)(&Scene::new(&basis, sweep::section_end(fit, section)), &mut Off)
}

fn at_end(fit: &Fit, motion: StringMove) -> MoveRow {
    moves(&Basis::new(fit), 2, motion, &[fit.well.sections[2].bottom])[0]
}

/// Friction shares: what goes up costs more than what turns, what goes down less; more friction spreads them.
#[test]
fn law_motions_stand_in_order() {
    let fit = crate::example("tolvane");
    let [out, into, turning, up, down, drilling, sliding] = StringMove::ALL.map(|motion| at_end(&fit, motion));
    for index in 0..BAND.len() {
        let loads = [&out, &up, &turning, &down].map(|row| row.hook_load[index]);
        assert!(loads.windows(2).all(|pair| pair[0] > pair[1]), "{loads:?}");
        assert!(into.hook_load[index] < turning.hook_load[index]);
        assert!(sliding.hook_load[index] < drilling.hook_load[index], "drag carries a part of the string");
        assert!(out.torque[index].abs() < 1e-9 && sliding.torque[index].abs() < 1e-9);
        assert!(turning.torque[index] > 0.0 && drilling.torque[index] > turning.torque[index]);
    }
    assert!(out.hook_load[2] > out.hook_load[1] && out.hook_load[1] > out.hook_load[0]);
    assert!(into.hook_load[2] < into.hook_load[1] && into.hook_load[1] < into.hook_load[0]);
}

/// At the friction given, the motions are what the situations of the review have.
#[test]
fn law_the_middle_of_the_band_is_the_field() {
    let fit = crate::example("tolvane");
    let basis = Basis::new(&fit);
    let bottom = fit.well.sections[2].bottom;
    let travelling = fit.rig.block.weight + fit.rig.drive.weight;
    for (motion, operation) in [
        (StringMove::PullingOut, Operation::PullingOut),
        (StringMove::RunningIn, Operation::RunningIn),
        (StringMove::Drilling, Operation::Drilling),
        (StringMove::Turning, Operation::Circulating),
    ] {
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, operation, bottom, bottom));
        let (row, drag) = (at_end(&fit, motion), scene.drag(&mut Off));
        assert!((row.hook_load[1] - drag.surface_tension - travelling).abs() < 1e-6, "{motion:?}");
        assert!((row.torque[1] - drag.surface_torque).abs() < 1e-6, "{motion:?}");
    }
}

/// Readings made by one pair of friction factors.
fn read(fit: &Fit, friction: Friction, corrected: bool) -> Vec<HookLoadReading> {
    let mut made = fit.clone();
    *made.well.friction = friction;
    let basis = Basis::new(&made);
    let mut readings = Vec::new();
    for depth in [1800.0, 2600.0, 3300.0, 3900.0] {
        for (motion, direction, block) in [
            (StringMove::PullingOut, Motion::Up, BlockMotion::Hoisting),
            (StringMove::RunningIn, Motion::Down, BlockMotion::Lowering),
        ] {
            let load = moves(&basis, 2, motion, &[depth])[0].hook_load[1];
            let there = sweep::situation(fit, 2, motion.operation(), depth, depth);
            let tackle = tackle(&Scene::new(&basis, there));
            let shown = tackle.dead_line(load, block, &mut Off) * tackle.lines;
            let load = if corrected { load } else { shown };
            readings.push(HookLoadReading { depth, motion: direction, load, corrected, date: None });
        }
    }
    readings
}

/// What made the readings is found again, inside casing and in open hole, also behind an indicator on the dead line.
#[test]
fn law_the_friction_of_readings_is_found_again() {
    let mut fit = crate::example("tolvane");
    let made = Friction { cased: 0.17, open: 0.34 };
    for corrected in [true, false] {
        fit.well.sections[2].hook_loads = read(&fit, made, corrected);
        *fit.well.friction = Friction { cased: 0.17, open: 0.28 };
        let off = *ask(&fit, "rotating/friction-fit", 2).judged().unwrap();
        assert!((off.demand - 0.06).abs() < 1e-6, "{off:?}");
        assert_eq!(ask(&fit, "rotating/friction-fit", 2).verdict(), Verdict::Short);
        *fit.well.friction = made;
        let on = *ask(&fit, "rotating/friction-fit", 2).judged().unwrap();
        assert!(on.demand < 1e-6, "{on:?}");
        assert_eq!(ask(&fit, "rotating/friction-fit", 2).verdict(), Verdict::Holds);
    }
}

#[test]
fn law_readings_that_say_nothing_are_not_judged() {
    let mut fit = crate::example("tolvane");
    fit.well.sections[2].hook_loads.clear();
    assert_eq!(ask(&fit, "rotating/friction-fit", 2).verdict(), Verdict::DoesNotArise);
    let light = HookLoadReading { depth: 3900.0, motion: Motion::Up, load: 1e4, corrected: true, date: None };
    fit.well.sections[2].hook_loads = vec![light, light];
    assert!(matches!(ask(&fit, "rotating/friction-fit", 2), Answer::DoesNotArise(why) if why.contains("no friction explains")));
    let one = read(&fit, *fit.well.friction, true)[6];
    fit.well.sections[2].hook_loads = vec![one];
    assert!(matches!(ask(&fit, "rotating/friction-fit", 2), Answer::DoesNotArise(why) if why.contains("single reading")));
}

#[test]
fn law_weight_that_slides_to_the_bit_flips_at_its_limit() {
    let mut fit = crate::example("tolvane");
    assert_eq!(ask(&fit, "rotating/lock-up", 2).verdict(), Verdict::DoesNotArise, "it turns");
    fit.well.sections[2].drilling.rotary_speed = 0.0;
    let capacity = ask(&fit, "rotating/lock-up", 2).judged().unwrap().limit.capacity;
    for (share, verdict) in [(1.0 - 1e-6, Verdict::Thin), (1.0 + 1e-6, Verdict::Short), (0.5, Verdict::Holds)] {
        fit.well.sections[2].drilling.weight_on_bit = share * capacity;
        assert_eq!(ask(&fit, "rotating/lock-up", 2).verdict(), verdict, "{share}");
    }
    // All of the weight is slacked off: what is on the bit and what the wall carries is the whole string.
    *fit.well.friction = Friction { cased: 0.0, open: 0.0 };
    fit.well.sections[2].drilling.weight_on_bit = 0.0;
    let free = ask(&fit, "rotating/lock-up", 2).judged().unwrap().limit.capacity;
    let basis = Basis::new(&fit);
    let bottom = fit.well.sections[2].bottom;
    let hung = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Drilling, bottom, bottom)).drag(&mut Off).surface_tension;
    assert!((free / hung - 1.0).abs() < 1e-9 && free > capacity, "{free} {hung} {capacity}");
}

/// More room to wind in lets less weight through.
#[test]
fn law_a_wider_hole_lets_less_weight_through() {
    let mut fit = crate::example("tolvane");
    fit.well.sections[2].drilling.rotary_speed = 0.0;
    *fit.well.sections[2].casing = None;
    let narrow = ask(&fit, "rotating/lock-up", 2).judged().unwrap().limit.capacity;
    // The flow of the mud stays: it lifts less in a wider hole.
    fit.well.sections[2].drilling.flow_rate = 0.0;
    let narrow_still = ask(&fit, "rotating/lock-up", 2).judged().unwrap().limit.capacity;
    fit.well.sections[2].hole_diameter *= 1.4;
    let wide = ask(&fit, "rotating/lock-up", 2).judged().unwrap().limit.capacity;
    assert!(wide < narrow_still, "{wide} {narrow_still}");
    assert!(narrow < narrow_still, "jets and flow lift the string: less is left to slack off");
}

#[test]
fn law_the_workings_give_the_same_answers() {
    let mut fit = crate::example("tolvane");
    fit.well.sections[2].hook_loads = read(&fit, Friction { cased: 0.22, open: 0.3 }, false);
    fit.well.sections[2].drilling.rotary_speed = 0.0;
    let basis = Basis::new(&fit);
    let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
    for slug in ["rotating/friction-fit", "rotating/lock-up", "rotating/loads-by-motion"] {
        let question = question(slug).unwrap();
        let mut working = Working::default();
        assert_eq!((question.show)(&scene, &mut working), (question.ask)(&scene, &mut Off), "{slug}");
        assert!(!working.lines.is_empty());
    }
}
