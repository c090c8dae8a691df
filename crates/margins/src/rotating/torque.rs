//! Torque at surface against the drive, and along the string against the joints.

use super::body::is_pipe;
use super::joints::make_up;
use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::rotating::DriveTorque;
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{DriveKind, Operation};

/// Whether the string turns here.
fn turns(scene: &Scene) -> bool {
    matches!(scene.situation.operation, Operation::Drilling | Operation::Circulating) && scene.situation.rotary_speed > 0.0
}

pub(super) fn drive_torque<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !turns(scene) {
        return Answer::DoesNotArise("the string does not turn");
    }
    let drive = &scene.fit().rig.drive;
    let speed = scene.situation.rotary_speed;
    let torque = scene.drag(rec).surface_torque;
    rec.heading("what the drive gives at this speed");
    rec.given("rotary speed wanted", speed, Kind::RotarySpeed);
    rec.given("largest speed of the drive", drive.speed, Kind::RotarySpeed);
    // Above its largest speed the drive gives nothing.
    let capacity = if speed > drive.speed {
        rec.note(|| "The wanted speed is above the largest speed of the drive, so there is no torque to be had at it.".into());
        0.0
    } else {
        rec.take(DriveTorque { rated_torque: drive.torque, power: drive.power, rotary_speed: speed })
    };
    let name = match drive.kind {
        DriveKind::RotaryTable => "rotary table at this speed",
        DriveKind::TopDrive => "top drive at this speed",
    };
    // The reserve is a share of the nameplate, so that it stays above nought when the drive gives nothing.
    let reserve = scene.fit().well.reserves.strength * drive.torque;
    let limit = Limit { capacity, reserve, name, source: "nameplate of the drive" };
    Answer::Judged(Judged { demand: torque, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn joint_torque<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !turns(scene) {
        return Answer::DoesNotArise("the string does not turn");
    }
    let share = scene.fit().well.reserves.strength;
    let drag = scene.drag(rec);
    rec.heading("torque at the top of each part against its make-up torque");
    let mut missing = false;
    let mut judgements = Vec::new();
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        let Some(make_up) = make_up(part, &mut Off) else {
            // Connections of collars and tools are judged where the crew gives them.
            missing |= is_pipe(part);
            continue;
        };
        let Some(depth) = scene.look(piece.top..=piece.bottom, piece.top) else { continue };
        let demand = drag.at(depth).1;
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        rec.given("torque there, at the top of the part unless asked elsewhere", demand, Kind::Torque);
        super::joints::make_up(part, rec);
        let given = part.joint.is_some_and(|joint| joint.make_up_torque.is_some());
        let source = if given { "maker's sheet, as given" } else { "API RP 7G, 60 % of the torsion of the connection" };
        let limit = Limit { capacity: make_up, reserve: share * make_up, name: "make-up torque", source };
        judgements.push(Judged { demand, limit, place: Place::Depth(depth), zero: 0.0 });
    }
    let worst = worst(judgements);
    let short = worst.is_some_and(|judged| judged.room() < 0.0);
    match worst {
        // A joint that nobody knows may be the weaker one, unless a known one is passed already.
        _ if missing && !short => Answer::Missing(vec!["section[].string[].make_up"]),
        Some(judged) => Answer::Judged(judged),
        None => Answer::DoesNotArise("only collars hang in the hole, and no make-up torque of theirs is given"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, sweep};

    /// The connection of a collar counts where its make-up torque is given: one that is weak enough governs.
    #[test]
    fn law_collar_connections_are_judged_where_given() {
        let mut fit = crate::example("tolvane");
        let ask = |fit: &rigwright_well::Fit| {
            let basis = Basis::new(fit);
            joint_torque(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
        };
        let before = *ask(&fit).judged().unwrap();
        assert_eq!(before.place, Place::Depth(0.0));
        let collar = &mut fit.well.sections[2].string[1];
        let (outer_diameter, inner_diameter) = (collar.outer_diameter, collar.inner_diameter);
        let bit_torque = fit.well.sections[2].drilling.bit_torque;
        let make_up_torque = Some(bit_torque * 1.01);
        let joint = rigwright_well::Joint { outer_diameter, inner_diameter, length: 0.4, make_up_torque };
        fit.well.sections[2].string[1].joint = Some(joint);
        let after = *ask(&fit).judged().unwrap();
        assert!(after.room() < before.room() && after.place.depth().unwrap() > 3_900.0);
        fit.well.sections[2].string[1].joint = None;
        assert_eq!(ask(&fit), Answer::Judged(before));
        fit.well.sections[2].string[3].joint = None;
        assert_eq!(ask(&fit), Answer::Missing(vec!["section[].string[].make_up"]));
    }
}
