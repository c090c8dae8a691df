//! Drum and brakes: pull and speed by layer, the power that lowering gives to the brakes, the torque that holds.

use super::load::{load, rated, strung, tackle};
use crate::{Answer, Figure, Judged, Place, Scene};
use rigwright_physics::hoisting::{BlockMotion, BrakePower, BrakeTorque, Drum, DrumDrive, DrumLayer, layer_courses};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Fit, Operation};

/// The drum of the rig, or the entries that nobody gave.
fn drum(fit: &Fit) -> Result<Drum, Vec<&'static str>> {
    let drawworks = &fit.rig.drawworks;
    let entries = [("rig.drawworks.drum", drawworks.drum), ("rig.drawworks.wraps", drawworks.wraps)];
    let [(_, Some(bare_diameter)), (_, Some(wraps))] = entries else {
        return Err(entries.iter().filter(|(_, value)| value.is_none()).map(|(entry, _)| *entry).collect());
    };
    Ok(Drum { bare_diameter, line_diameter: fit.rig.line.diameter, wraps, dead_wraps: drawworks.dead_wraps })
}

/// The layer that the line lies on with the block up: a stand above its lowest position.
fn last_layer<R: Recorder>(drum: &Drum, scene: &Scene, rec: &mut R) -> Option<DrumLayer> {
    let wound = scene.fit().rig.mast.stand * f64::from(strung(scene));
    rec.given("line wound on while the block rises by a stand", wound, Kind::Depth);
    drum.layers(wound, rec).last().copied()
}

const NO_LAYER: Answer = Answer::DoesNotArise("the dead wraps take up the whole drum");

pub(super) fn layers<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let drum = match drum(fit) {
        Ok(drum) => drum,
        Err(missing) => return Answer::Missing(missing),
    };
    let (lines, stand) = (f64::from(fit.rig.line.strung), fit.rig.mast.stand);
    let Some(full) = last_layer(&drum, scene, &mut Off) else { return NO_LAYER };
    rec.heading("torque of the drum from the line pull, which is given for the full drum; its speed from the block's");
    rec.given("largest pull of the drawworks on the fast line", *fit.rig.drawworks.line_pull, Kind::Force);
    rec.given("greatest speed of the block", *fit.rig.drawworks.block_speed, Kind::Speed);
    rec.given("diameter of the line on the last layer", full.diameter, Kind::Diameter);
    let torque = rec.take(BrakeTorque { fast_line: *fit.rig.drawworks.line_pull, drum_diameter: full.diameter });
    let drum_speed = *fit.rig.drawworks.block_speed * lines / (0.5 * full.diameter);
    rec.given("speed of the drum", drum_speed, Kind::RotarySpeed);
    let courses = layer_courses(&drum, &DrumDrive { torque, drum_speed, lines }, stand, rec);
    let Some(first) = courses.first() else { return NO_LAYER };
    Answer::Told(vec![
        Figure { name: "last layer", value: f64::from(full.layer), kind: Kind::Count },
        Figure { name: "its diameter", value: full.diameter, kind: Kind::Diameter },
        Figure { name: "pull on the first layer", value: first.line_pull, kind: Kind::Force },
        Figure { name: "pull on the last", value: *fit.rig.drawworks.line_pull, kind: Kind::Force },
        Figure { name: "block speed on the first", value: first.block_speed, kind: Kind::Speed },
    ])
}

pub(super) fn brake<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !matches!(scene.situation.operation, Operation::RunningCasing | Operation::RunningIn) {
        return Answer::DoesNotArise("the string is not lowered");
    }
    let fit = scene.fit();
    let Some(capacity) = *fit.rig.drawworks.brake_power else { return Answer::Missing(vec!["rig.drawworks.brake_power"]) };
    let picked_up = load(scene, rec).hook;
    let drag = scene.drag(&mut Off);
    let hook = (picked_up - drag.picked_up_tension + drag.surface_tension).max(0.0);
    rec.heading("power that lowering gives to the brakes, for as long as it lasts");
    rec.given("hook load on the way down", hook, Kind::Force);
    let tackle = tackle(scene);
    let fast_line = tackle.fast_line(hook, BlockMotion::Lowering, rec);
    let block_speed = scene.situation.pipe_speed;
    rec.given("mean speed of the pipe", block_speed, Kind::Speed);
    let demand = rec.take(BrakePower { fast_line, lines: tackle.lines, block_speed });
    rec.given("power that the brakes take up", capacity, Kind::Power);
    let limit = rated(capacity, fit.well.reserves.machinery, "brakes, lowering steadily", "nameplate of the brakes");
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

pub(super) fn brake_torque<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation == Operation::ShutIn {
        return super::load::SHUT_IN;
    }
    let fit = scene.fit();
    let drum = drum(fit);
    let (Some(capacity), Ok(drum)) = (*fit.rig.drawworks.brake_torque, &drum) else {
        let own = fit.rig.drawworks.brake_torque.is_none().then_some("rig.drawworks.brake_torque");
        return Answer::Missing(own.into_iter().chain(drum.err().into_iter().flatten()).collect());
    };
    let hook = load(scene, rec).hook.max(0.0);
    rec.heading("torque that holds the load still with the block up and the drum full; no friction helps");
    let Some(full) = last_layer(drum, scene, rec) else { return NO_LAYER };
    let fast_line = tackle(scene).fast_line(hook, BlockMotion::Standing, rec);
    let demand = rec.take(BrakeTorque { fast_line, drum_diameter: full.diameter });
    rec.given("torque that the brakes hold", capacity, Kind::Torque);
    let limit = rated(capacity, fit.well.reserves.machinery, "brakes, holding", "nameplate of the brakes");
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}
