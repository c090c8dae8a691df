//! Work of the drilling line, job by job, by the rules of API RP 9B.

use super::{Job, Step};
use crate::{Basis, Scene, sweep};
use rigwright_physics::hoisting::{
    BuoyancyFactor, BuoyedWeight, CORED, ExcessWeight, KELLY_DRILLED, KELLY_REAMED_ONCE, KELLY_REAMED_TWICE, LineJob,
    TOP_DRIVE_DRILLED, TOP_DRIVE_REAMED, TravellingWeight, TrippedString, line_work,
};
use rigwright_physics::tubular::STEEL_DENSITY;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Casing, DriveKind, Fit};

/// A trip one way is half a round trip.
const ONE_WAY: f64 = 0.5;

/// What hangs on the hook while the string of a section is tripped; `None` without a string.
pub(crate) fn tripped<R: Recorder>(scene: &Scene, rec: &mut R) -> Option<TrippedString> {
    let rig = &scene.fit().rig;
    let travelling_weight = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    let buoyancy_factor = rec.take(BuoyancyFactor { mud_density: scene.section().mud.weight, steel_density: STEEL_DENSITY });
    let (pipe, below) = scene.string().split_last()?;
    let buoyed = |linear_mass: f64| BuoyedWeight { linear_mass, gravity: scene.gravity(), buoyancy_factor };
    let buoyed_weight = rec.take(buoyed(pipe.pipe.linear_mass()));
    let (mut assembly_weight, mut assembly_length) = (0.0, 0.0);
    for piece in below {
        let length = piece.bottom - piece.top;
        rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
        assembly_weight += rec.take(buoyed(piece.pipe.linear_mass())) * length;
        assembly_length += length;
    }
    rec.given("weight in mud of everything below the uppermost pipe, added up", assembly_weight, Kind::Force);
    let excess_weight = rec.take(ExcessWeight { assembly_weight, buoyed_weight, assembly_length });
    Some(TrippedString { stand: rig.mast.stand, buoyed_weight, travelling_weight, excess_weight })
}

/// How often the block goes up and down for what is drilled.
pub(crate) fn passes(fit: &Fit, section: usize) -> f64 {
    match (fit.rig.drive.kind, fit.well.sections[section].drilling.reamed) {
        (DriveKind::RotaryTable, 0) => KELLY_DRILLED,
        (DriveKind::RotaryTable, 1) => KELLY_REAMED_ONCE,
        (DriveKind::RotaryTable, _) => KELLY_REAMED_TWICE,
        (DriveKind::TopDrive, 0) => TOP_DRIVE_DRILLED,
        // Each further time is as much again as the first.
        (DriveKind::TopDrive, times) => TOP_DRIVE_DRILLED + f64::from(times) * (TOP_DRIVE_REAMED - TOP_DRIVE_DRILLED),
    }
}

/// Line work of a job. [J]
pub(crate) fn work<R: Recorder>(basis: &Basis, step: &Step, rec: &mut R) -> f64 {
    let Step { section, job, from, to, .. } = *step;
    let fit = basis.fit;
    let scene = Scene::new(basis, sweep::section_end(fit, section));
    let between = |passes: f64| LineJob::Between { from, to, passes };
    let job = match job {
        Job::RunIn | Job::PullOut => between(ONE_WAY),
        Job::Drill => between(passes(fit, section)),
        Job::Core => between(CORED),
        Job::RunCasing => return fit.well.sections[section].casing.as_ref().map_or(0.0, |casing| cased(&scene, casing, rec)),
        Job::Circulate | Job::Flat => return 0.0,
    };
    let Some(string) = tripped(&scene, rec) else { return 0.0 };
    line_work(job, &string, rec)
}

/// Line work of running casing; a liner is the assembly at the end of the pipe that it is run on. [J]
pub(crate) fn cased<R: Recorder>(scene: &Scene, casing: &Casing, rec: &mut R) -> f64 {
    let (rig, gravity) = (&scene.fit().rig, scene.gravity());
    let travelling_weight = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    let buoyancy_factor = rec.take(BuoyancyFactor { mud_density: scene.section().mud.weight, steel_density: STEEL_DENSITY });
    let mut buoyed = |linear_mass: f64| rec.take(BuoyedWeight { linear_mass, gravity, buoyancy_factor });
    let weight = buoyed(casing.linear_mass);
    if casing.top <= 0.0 {
        let stand = casing.joint_length;
        rec.given("length of a joint of casing", stand, Kind::Depth);
        let string = TrippedString { stand, buoyed_weight: weight, travelling_weight, excess_weight: 0.0 };
        return line_work(LineJob::Casing(casing.shoe), &string, rec);
    }
    let Some(pipe) = scene.section().string.last() else { return 0.0 };
    let buoyed_weight = buoyed(pipe.linear_mass);
    let length = casing.shoe - casing.top;
    let excess_weight = rec.take(ExcessWeight { assembly_weight: weight * length, buoyed_weight, assembly_length: length });
    let string = TrippedString { stand: rig.mast.stand, buoyed_weight, travelling_weight, excess_weight };
    line_work(LineJob::Between { from: 0.0, to: casing.shoe, passes: ONE_WAY }, &string, rec)
}
