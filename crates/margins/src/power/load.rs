//! What the consumers draw from the bus in a situation.

use crate::Scene;
use rigwright_physics::circulating::pumps::PumpInputPower;
use rigwright_physics::hoisting::{DrawworksPower, HookLoad, TackleEfficiency, TravellingWeight};
use rigwright_physics::power::chain::StageInputPower;
use rigwright_physics::rotating::RotaryPower;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Motion;

/// Electric power by consumer at the bus. [W]
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Load {
    pub(super) pumps: f64,
    pub(super) drive: f64,
    pub(super) drawworks: f64,
    pub(super) auxiliary: f64,
    pub(super) hotel: f64,
}

impl Load {
    pub(super) fn total(&self) -> f64 {
        self.pumps + self.drive + self.drawworks + self.auxiliary + self.hotel
    }

    /// Consumers of a situation, or the entry without which they are not known.
    pub(super) fn of<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Load, &'static str> {
        let rig = &scene.fit().rig;
        let situation = &scene.situation;
        let mut load = Load { hotel: rig.sets.hotel_load, ..Load::default() };
        let pumping = situation.flow_rate > 0.0;
        if pumping {
            let flow = scene.flow(rec);
            if let Some(entry) = flow.missing {
                return Err(entry);
            }
            rec.heading("mud pumps");
            let shaft = rec.take(PumpInputPower {
                pressure: flow.standpipe.max(0.0),
                flow_rate: situation.flow_rate,
                mechanical_efficiency: rig.pump.mechanical_efficiency,
            });
            load.pumps = at_bus(scene, shaft, rec);
            load.auxiliary = rig.sets.auxiliary_load;
        }
        if pumping && situation.rotary_speed > 0.0 {
            let torque = scene.drag(rec).surface_torque;
            rec.heading("rotary drive");
            let shaft = rec.take(RotaryPower { torque, rotary_speed: situation.rotary_speed });
            load.drive = at_bus(scene, shaft.max(0.0), rec);
        }
        if situation.operation.motion() == Motion::Up && situation.pipe_speed > 0.0 {
            load.drawworks = drawworks(scene, rec);
        }
        rec.heading("load at the bus");
        let rows = [
            ("mud pumps", load.pumps),
            ("rotary drive", load.drive),
            ("drawworks", load.drawworks),
            ("auxiliaries of the pumps", load.auxiliary),
            ("hotel load", load.hotel),
            ("all together", load.total()),
        ];
        for (what, power) in rows.into_iter().filter(|(_, power)| *power > 0.0) {
            rec.given(what, power, Kind::Power);
        }
        Ok(load)
    }
}

/// Power at the bus for a power at a motor's shaft. [W]
fn at_bus<R: Recorder>(scene: &Scene, output_power: f64, rec: &mut R) -> f64 {
    rec.take(StageInputPower { output_power, efficiency: scene.fit().rig.sets.drive_efficiency })
}

/// Drawworks that lift the string at the wanted block speed, or as fast as their own power lets them. [W]
fn drawworks<R: Recorder>(scene: &Scene, rec: &mut R) -> f64 {
    let rig = &scene.fit().rig;
    let string_load = scene.drag(rec).surface_tension;
    rec.heading("drawworks");
    let travelling_weight = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
    let hook_load = rec.take(HookLoad { string_load, travelling_weight }).max(0.0);
    let lines = f64::from(rig.line.strung);
    let tackle_efficiency = rec.take(TackleEfficiency { lines, sheave_factor: rig.line.sheave_factor });
    let wanted = rec.take(DrawworksPower {
        hook_load,
        block_speed: rig.drawworks.hoisting_speed,
        tackle_efficiency,
        drum_efficiency: rig.drawworks.efficiency,
    });
    let shaft = wanted.min(rig.drawworks.power);
    if wanted > rig.drawworks.power {
        rec.note(|| "More than the drawworks have: the block goes slower, and their own power is what they draw.".to_owned());
        rec.given("input power of the drawworks", rig.drawworks.power, Kind::Power);
    }
    at_bus(scene, shaft, rec)
}
