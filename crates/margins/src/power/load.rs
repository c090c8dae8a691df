//! What an operation draws, consumer by consumer, from its end back to the bus.

use crate::Scene;
use rigwright_physics::circulating::bit::HydraulicPower;
use rigwright_physics::hoisting::{DrawworksPower, HookLoad, Tackle};
use rigwright_physics::power::chain::StageInputPower;
use rigwright_physics::rotating::RotaryPower;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Motion;

/// Electric power drawn at the bus. [W]
pub(super) fn at_bus<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let rig = &scene.fit().rig;
    let mut shafts = 0.0;
    let mut auxiliary = 0.0;
    let situation = &scene.situation;
    if situation.flow_rate > 0.0 {
        let pressure = scene.flow(rec).standpipe;
        rec.heading("mud pumps");
        let output_power = rec.take(HydraulicPower { pressure, flow_rate: situation.flow_rate });
        shafts += rec.take(StageInputPower { output_power, efficiency: rig.pump.mechanical_efficiency });
        auxiliary = rig.sets.auxiliary_load;
    }
    if situation.rotary_speed > 0.0 {
        let torque = scene.drag(rec).surface_torque;
        rec.heading("drive");
        shafts += rec.take(RotaryPower { torque, rotary_speed: situation.rotary_speed });
    }
    if situation.operation.motion() == Motion::Up {
        let string_load = scene.drag(rec).surface_tension;
        rec.heading("drawworks");
        let hook_load = rec.take(HookLoad { string_load, travelling_weight: rig.block.weight + rig.drive.weight });
        let tackle = Tackle { lines: f64::from(rig.line.strung), sheave_factor: rig.line.sheave_factor };
        let tackle_efficiency = tackle.efficiency(rec);
        let power = rec.take(DrawworksPower {
            hook_load: hook_load.max(0.0),
            block_speed: situation.pipe_speed,
            tackle_efficiency,
            drum_efficiency: rig.drawworks.efficiency,
        });
        if power > rig.drawworks.power {
            rec.note(|| "The drawworks draws no more than its nameplate: it hoists slower than wanted instead.".into());
        }
        shafts += power.min(rig.drawworks.power);
    }
    rec.heading("at the bus");
    let drives = rec.take(StageInputPower { output_power: shafts, efficiency: rig.sets.drive_efficiency });
    rec.given("hotel load: lights, camp, shakers", rig.sets.hotel_load, Kind::Power);
    rec.given("charge pumps, blowers and cooling", auxiliary, Kind::Power);
    drives + rig.sets.hotel_load + auxiliary
}
