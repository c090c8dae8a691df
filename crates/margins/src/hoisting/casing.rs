//! The run of casing or a liner: what the hook shows on the way, what fills the string, and what it weighs when it is
//! landed. Whether rig and pipe bear it is asked in every situation of the run by the other questions.

use super::load::{load, strung};
use crate::geometry::Pipe;
use crate::running_sheet::HookLoads;
use crate::{Answer, Figure, Scene, sweep};
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::hoisting::TravellingWeight;
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Casing, Operation};

/// Depths of the run that its table shows.
const STEPS: usize = 16;

fn hook<R: Recorder>(run: &Scene, rec: &mut R) -> HookLoads {
    let up = load(run, rec).hook;
    let drag = run.drag(&mut Off);
    let travelling = up - drag.picked_up_tension;
    let still = {
        let mut situation = run.situation;
        // Hung still: nothing moves, so nothing rubs.
        situation.pipe_speed = 0.0;
        Scene::new(run.basis, situation).drag(&mut Off).surface_tension
    };
    HookLoads { up, still: still + travelling, down: drag.surface_tension + travelling }
}

/// The run with its shoe at a depth.
fn at<'a>(scene: &Scene<'a>, shoe: f64) -> Scene<'a> {
    let (section, bottom) = (scene.situation.section, scene.section().bottom);
    Scene::new(scene.basis, sweep::situation(scene.fit(), section, Operation::RunningCasing, bottom, shoe))
}

/// Hook loads of the run with its shoe at a depth.
pub(crate) fn hook_with_shoe_at(scene: &Scene, shoe: f64) -> HookLoads {
    hook(&at(scene, shoe), &mut Off)
}

/// Length inside that has been filled with the shoe at a depth. [m]
pub(crate) fn filled(casing: &Casing, shoe: f64) -> f64 {
    (shoe.min(casing.shoe - casing.top) - casing.floated).max(0.0)
}

const COLUMNS: &[(&str, Kind)] = &[
    ("shoe", Kind::Depth),
    ("picked up", Kind::Force),
    ("still", Kind::Force),
    ("lowered", Kind::Force),
    ("filled so far", Kind::Volume),
];

pub(super) fn casing_run<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(casing) = &*scene.section().casing else {
        return Answer::DoesNotArise("the section stays open: no casing ends it");
    };
    rec.heading("with the shoe at its depth");
    let bottom = at(scene, casing.shoe);
    let on_bottom = hook(&bottom, rec);
    let inner_diameter = casing.inner_diameter;
    rec.heading("mud that fills it");
    let capacity = rec.take(BoreCapacity { inner_diameter });
    rec.given("length that is filled", filled(casing, casing.shoe), Kind::Depth);
    rec.given("length of a joint", casing.joint_length, Kind::Depth);
    rec.heading("hook load on the way, block and drive included");
    rec.table("the run", COLUMNS, || {
        let row = |step: usize| {
            let shoe = casing.shoe * step as f64 / STEPS as f64;
            let HookLoads { up, still, down } = hook(&at(scene, shoe), &mut Off);
            vec![shoe, up, still, down, capacity * filled(casing, shoe)]
        };
        (1..=STEPS).map(row).collect()
    });
    rec.heading("landed");
    let rig = &scene.fit().rig;
    let travelling = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    // What hangs below the hanger: the string itself, with the landing string left above it.
    let still = {
        let mut situation = bottom.situation;
        situation.pipe_speed = 0.0;
        Scene::new(bottom.basis, situation)
    };
    let landing_string = bottom.string().iter().any(|piece| matches!(piece.pipe, Pipe::Part(_)));
    let drag = still.drag(&mut Off);
    let landed = if landing_string { drag.at(casing.top).0 } else { drag.surface_tension };
    rec.given("hook load hanging still", on_bottom.still, Kind::Force);
    rec.given("weight of the string in mud below its hanger", landed, Kind::Force);
    let after = on_bottom.still - landed;
    rec.given("hook load with that weight set down: what is left hangs above the hanger", after, Kind::Force);
    rec.given("of it block, hook and drive", travelling, Kind::Force);
    let force = |name, value| Figure { name, value, kind: Kind::Force };
    let volume = |name, value| Figure { name, value, kind: Kind::Volume };
    Answer::Told(vec![
        force("hook load picked up at the shoe's depth", on_bottom.up),
        force("lowered", on_bottom.down),
        force("hanging still", on_bottom.still),
        force("weight left in the hanger", landed),
        force("hook load when it is landed", after),
        volume("mud to fill it", capacity * filled(casing, casing.shoe)),
        volume("mud for a joint", capacity * casing.joint_length),
        Figure { name: "lines strung", value: f64::from(strung(&bottom)), kind: Kind::Count },
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, question};
    use rigwright_physics::tubular::STEEL_DENSITY;
    use rigwright_physics::{STANDARD_GRAVITY, Working};
    use rigwright_well::Fit;

    const FOOT: f64 = 0.3048;

    fn told(fit: &Fit, section: usize) -> Vec<Figure> {
        let basis = Basis::new(fit);
        match casing_run(&Scene::new(&basis, sweep::section_end(fit, section)), &mut Off) {
            Answer::Told(figures) => figures,
            other => panic!("{other:?}"),
        }
    }

    fn figure(figures: &[Figure], name: &str) -> f64 {
        figures.iter().find(|figure| figure.name == name).unwrap().value
    }

    /// By hand in the vertical example, 7 in 29 lb/ft to 10,990 ft in 11.5 ppg: no drag but that of the mud that moves.
    #[test]
    fn law_a_vertical_run_by_hand() {
        let fit = crate::example("ostrick");
        let figures = told(&fit, 2);
        let casing = fit.well.sections[2].casing.as_ref().unwrap();
        let buoyancy = 1.0 - fit.well.sections[2].mud.weight / STEEL_DENSITY;
        let string = casing.linear_mass * casing.shoe * buoyancy * STANDARD_GRAVITY;
        let travelling = fit.rig.block.weight + fit.rig.drive.weight;
        let basis = Basis::new(&fit);
        let running = sweep::situation(&fit, 2, Operation::RunningCasing, fit.well.sections[2].bottom, casing.shoe);
        let lift = crate::lift_above(&Scene::new(&basis, running), casing.shoe);
        assert!(lift > 0.0);
        for (name, lift) in [("hook load picked up at the shoe's depth", -lift), ("lowered", lift), ("hanging still", 0.0)] {
            assert!((figure(&figures, name) / (string + travelling - lift) - 1.0).abs() < 1e-9, "{name}");
        }
        assert!((figure(&figures, "weight left in the hanger") / string - 1.0).abs() < 1e-9);
        assert!((figure(&figures, "hook load when it is landed") / travelling - 1.0).abs() < 1e-9);
        // 6.184 in hold 0.03715 bbl/ft (the trade's d²/1029.4).
        let barrels = figure(&figures, "mud to fill it") / 0.158_987_294_928;
        assert!((barrels / (6.184f64.powi(2) / 1029.4 * 10_990.0) - 1.0).abs() < 1e-4, "{barrels}");
    }

    /// A liner leaves its own weight in its hanger, and the landing string on the hook; friction makes up more than down.
    #[test]
    fn law_a_liner_is_landed_on_drill_pipe() {
        let fit = crate::example("tolvane");
        let figures = told(&fit, 2);
        let casing = fit.well.sections[2].casing.as_ref().unwrap();
        let path = &fit.well.path;
        let buoyancy = 1.0 - fit.well.sections[2].mud.weight / STEEL_DENSITY;
        let height = path.vertical_depth_at(casing.shoe) - path.vertical_depth_at(casing.top);
        let liner = casing.linear_mass * height * buoyancy * STANDARD_GRAVITY;
        assert!((figure(&figures, "weight left in the hanger") / liner - 1.0).abs() < 1e-3);
        let pipe = fit.well.sections[2].string.last().unwrap();
        let above = pipe.linear_mass * path.vertical_depth_at(casing.top) * buoyancy * STANDARD_GRAVITY;
        let travelling = fit.rig.block.weight + fit.rig.drive.weight;
        assert!((figure(&figures, "hook load when it is landed") / (above + travelling) - 1.0).abs() < 1e-3);
        let [up, down, still] = [figures[0].value, figures[1].value, figures[2].value];
        assert!(up > still && still > down);
    }

    /// Run empty on its floats, casing weighs as much less as the mud that it does not hold; emptied wholly it needs none.
    #[test]
    fn law_a_floated_string_lacks_the_mud_inside() {
        let mut fit = crate::example("ostrick");
        let full = told(&fit, 2);
        let casing = fit.well.sections[2].casing.as_mut().unwrap();
        casing.floated = 2_000.0 * FOOT;
        let mud = std::f64::consts::FRAC_PI_4 * casing.inner_diameter.powi(2) * casing.floated * STANDARD_GRAVITY;
        let mud = mud * fit.well.sections[2].mud.weight;
        let floated = told(&fit, 2);
        assert!((full[2].value - floated[2].value - mud).abs() < 1e-3 * mud, "{} {mud}", full[2].value - floated[2].value);
        let fill = |figures: &[Figure]| figure(figures, "mud to fill it");
        assert!((fill(&full) / fill(&floated) - 10_990.0 / 8_990.0).abs() < 1e-9);
    }

    /// More lines for the run than for drilling: the questions of that run take them, and no others.
    #[test]
    fn law_casing_runs_on_its_own_lines() {
        let mut fit = crate::example("ostrick");
        assert_eq!(fit.rig.line.strung, 10);
        fit.well.sections[2].casing.as_mut().unwrap().lines = Some(12);
        let basis = Basis::new(&fit);
        let asked = |slug: &str, operation| {
            let situation = sweep::situation(&fit, 2, operation, fit.well.sections[2].bottom, 3_000.0);
            *(question(slug).unwrap().ask)(&Scene::new(&basis, situation), &mut Off).judged().unwrap()
        };
        assert_eq!(asked("hoisting/hook-load", Operation::RunningCasing).limit.name, "mast at 12 lines");
        assert_eq!(asked("hoisting/hook-load", Operation::PullingOut).limit.name, "mast at 10 lines");
        let on_ten = {
            let mut fit = fit.clone();
            fit.well.sections[2].casing.as_mut().unwrap().lines = None;
            let basis = Basis::new(&fit);
            let situation = sweep::situation(&fit, 2, Operation::RunningCasing, fit.well.sections[2].bottom, 3_000.0);
            let line = question("hoisting/line-strength").unwrap();
            (line.ask)(&Scene::new(&basis, situation), &mut Off).judged().unwrap().demand
        };
        assert!(asked("hoisting/line-strength", Operation::RunningCasing).demand < on_ten);
        assert!((figure(&told(&fit, 2), "lines strung") - 12.0).abs() < 1e-12);
    }

    /// The landing string is asked for overpull and for all loads; casing to surface is not pipe of the drill string.
    #[test]
    fn law_the_landing_string_is_asked() {
        let tolvane = crate::example("tolvane");
        let basis = Basis::new(&tolvane);
        let end = |section: usize| {
            let shoe = tolvane.well.sections[section].casing.as_ref().unwrap().shoe;
            let bottom = tolvane.well.sections[section].bottom;
            Scene::new(&basis, sweep::situation(&tolvane, section, Operation::RunningCasing, bottom, shoe))
        };
        for slug in ["rotating/pipe-overpull", "rotating/triaxial", "rotating/pipe-strength"] {
            let question = question(slug).unwrap();
            let judged = *(question.ask)(&end(2), &mut Off).judged().unwrap();
            assert!(judged.place.depth().unwrap() < 2_750.0, "{slug}: somewhere in the landing string");
            assert_eq!((question.ask)(&end(1), &mut Off).verdict(), Verdict::DoesNotArise, "{slug}");
        }
        let pulled = (question("rotating/pipe-overpull").unwrap().ask)(&end(2), &mut Off);
        let drag = end(2).drag(&mut Off).picked_up_tension;
        assert!((pulled.judged().unwrap().demand / drag - 1.0).abs() < 1e-9);
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        for (name, section) in [("ostrick", 0), ("tolvane", 2)] {
            let fit = crate::example(name);
            let basis = Basis::new(&fit);
            let scene = Scene::new(&basis, sweep::section_end(&fit, section));
            let mut working = Working::default();
            assert_eq!(casing_run(&scene, &mut working), casing_run(&scene, &mut Off));
            assert!(working.lines.len() > 10);
        }
    }
}
