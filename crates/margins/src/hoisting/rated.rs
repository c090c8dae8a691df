//! Parts of the rig with a rating of their own: anchor of the dead line, leg, substructure, raising line, height.

use super::load::{block_motion, load, rated, tackle};
use crate::fields::drag::weight_in_mud;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::hoisting::{AllowedLinePull, BlockMotion, StoppingDistance};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Operation;

/// How far pipe stands out of the rotary table in slips. [m]
///
/// *Source*: common practice, 4 ft.
const STICK_UP: f64 = 1.2192;
/// What is wanted between block and crown. [m]
///
/// *Source*: common practice, 10 ft.
const CROWN_CLEARANCE: f64 = 3.048;

fn at_surface(demand: f64, limit: Limit) -> Answer {
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// The hook load with the motion in which it pulls most on the dead side; casing is also lowered, with less on the hook
/// and more on the dead line.
fn dead_line<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let operation = scene.situation.operation;
    let hook = load(scene, rec).hook;
    let up = tackle(scene).dead_line(hook, block_motion(operation), rec);
    if operation != Operation::RunningCasing {
        return up;
    }
    let drag = scene.drag(&mut rigwright_physics::Off);
    let lowered = hook - drag.picked_up_tension + drag.surface_tension;
    rec.given("hook load on the way down", lowered, Kind::Force);
    up.max(tackle(scene).dead_line(lowered.max(0.0), BlockMotion::Lowering, rec))
}

pub(super) fn dead_line_anchor<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation == Operation::ShutIn {
        return super::load::SHUT_IN;
    }
    let fit = scene.fit();
    let Some(capacity) = fit.rig.line.anchor_rating else { return Answer::Missing(vec!["rig.line.anchor_rating"]) };
    let demand = dead_line(scene, rec);
    rec.given("pull that the anchor of the dead line bears", capacity, Kind::Force);
    at_surface(demand, rated(capacity, fit.well.reserves.load, "anchor of the dead line", "nameplate of the anchor"))
}

pub(super) fn worst_leg<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let operation = scene.situation.operation;
    if operation == Operation::ShutIn {
        return super::load::SHUT_IN;
    }
    let fit = scene.fit();
    let Some(capacity) = fit.rig.mast.leg_rating else {
        return Answer::DoesNotArise("no leg is rated by itself; the mast is rated for the hook load");
    };
    let Some(crown_weight) = fit.rig.crown.weight else { return Answer::Missing(vec!["rig.crown.weight"]) };
    let hook = load(scene, rec).hook;
    rec.heading("legs of the derrick: the dead line is tied to one, the two on the side of the drawworks share the fast line");
    rec.given("weight of the crown block", crown_weight, Kind::Force);
    let demand = tackle(scene).worst_leg_load(hook, block_motion(operation), crown_weight, rec);
    rec.given("load that one leg bears", capacity, Kind::Force);
    at_surface(demand, rated(capacity, fit.well.reserves.load, "one leg", "nameplate of the derrick"))
}

pub(super) fn setback_with_hook_load<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !matches!(scene.situation.operation, Operation::RunningCasing | Operation::PullingOut) {
        return Answer::DoesNotArise("the setback is not full while a heavy string hangs in the rotary table");
    }
    let fit = scene.fit();
    let Some(capacity) = fit.rig.mast.rotary_load else { return Answer::Missing(vec!["rig.mast.rotary_load"]) };
    let demand = load(scene, rec).string;
    rec.given("rotary load that the substructure bears with a full setback", capacity, Kind::Force);
    let limit = rated(capacity, fit.well.reserves.load, "rotary load with full setback", "nameplate of the substructure");
    at_surface(demand, limit)
}

pub(super) fn raising_line<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let line = fit.rig.raising_line;
    let entries = [("rig.raising_line.pull", line.pull), ("rig.raising_line.strength", line.strength)];
    let [(_, Some(demand)), (_, Some(line_strength))] = entries else {
        return Answer::Missing(entries.iter().filter(|(_, value)| value.is_none()).map(|(entry, _)| *entry).collect());
    };
    rec.given("largest pull while the mast is raised", demand, Kind::Force);
    let capacity = rec.take(AllowedLinePull { line_strength, design_factor: line.design_factor });
    let source = "certificate of the line over its design factor (API RP 9B, factor from memory)";
    at_surface(demand, rated(capacity, fit.well.reserves.machinery, "raising line at its design factor", source))
}

pub(super) fn stand_height<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let rig = &scene.fit().rig;
    let entries = [("rig.mast.clear_height", rig.mast.clear_height), ("rig.block.length", rig.block.length)];
    let [(_, Some(capacity)), (_, Some(block))] = entries else {
        return Answer::Missing(entries.iter().filter(|(_, value)| value.is_none()).map(|(entry, _)| *entry).collect());
    };
    rec.given("pipe above the rotary table in slips", STICK_UP, Kind::Depth);
    rec.given("length of a stand", rig.mast.stand, Kind::Depth);
    rec.given("from where the pipe hangs to the top of the block", block, Kind::Depth);
    rec.given("greatest speed of the block", *rig.drawworks.block_speed, Kind::Speed);
    let (block_speed, deceleration) = (*rig.drawworks.block_speed, *rig.drawworks.acceleration);
    let stopping = rec.take(StoppingDistance { block_speed, deceleration });
    let demand = STICK_UP + rig.mast.stand + block + stopping;
    rec.given("height of all four together", demand, Kind::Depth);
    rec.given("height that is free for the block", capacity, Kind::Depth);
    let limit =
        Limit { capacity, reserve: CROWN_CLEARANCE, name: "height below the crown", source: "drawing of the mast; 10 ft clear" };
    at_surface(demand, limit)
}

pub(super) fn casing_to_bottom<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::RunningCasing {
        return Answer::DoesNotArise("no casing is run");
    }
    if scene.situation.bit_depth <= 0.0 {
        return Answer::DoesNotArise("nothing hangs in the hole yet");
    }
    let fit = scene.fit();
    let going_down = scene.drag(rec).surface_tension;
    // What it weighs in mud along the vertical: the march without friction, to the last digit.
    let buoyancy = super::load::buoyancy(scene, rec);
    let path = &fit.well.path;
    let height = |top: f64, bottom: f64| path.vertical_depth_at(bottom) - path.vertical_depth_at(top);
    let mut still = 0.0;
    for piece in scene.string() {
        rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
        still += weight_in_mud(scene, piece, buoyancy, rec) * height(piece.top, piece.bottom);
    }
    rec.heading("weight that carries the string down against the friction that holds it");
    rec.given("weight of the string in mud along the vertical", still, Kind::Force);
    rec.given("effective tension at surface on the way down", going_down, Kind::Force);
    let demand = (still - going_down).max(0.0);
    rec.given("friction on the way down: the difference", demand, Kind::Force);
    let limit = rated(still.max(0.0), fit.well.reserves.load, "weight of the string in mud", "statics");
    let place = Place::Depth(scene.situation.bit_depth);
    Answer::Judged(Judged { demand, limit, place, zero: 0.0 })
}
