//! What the consumers draw from the bus: in a situation, and one by one for the moments between situations.

use crate::Scene;
use crate::hoisting::tackle;
use rigwright_physics::circulating::pumps::{PumpInputPower, PumpSpeed};
use rigwright_physics::hoisting::{DrawworksPower, HookLoad, Tackle, TackleEfficiency, TravellingWeight};
use rigwright_physics::power::drives::{DriveChain, drive_load};
use rigwright_physics::power::loads::{BusSum, ElectricLoad, bus_sum};
use rigwright_physics::rotating::RotaryPower;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Fit, Motion};

/// Nothing drawn.
const NONE: ElectricLoad = ElectricLoad { power: 0.0, power_factor: 1.0 };

/// What each consumer draws at the bus.
#[derive(Clone, Copy, Debug)]
pub struct Load {
    /// Mud pumps.
    pub pumps: ElectricLoad,
    /// Rotary table or top drive.
    pub drive: ElectricLoad,
    /// Drawworks.
    pub drawworks: ElectricLoad,
    /// Charge pumps, blowers, cooling.
    pub auxiliary: ElectricLoad,
    /// Lights, camp, shakers, mixers.
    pub hotel: ElectricLoad,
    /// Thrusters of a floating rig.
    pub station: ElectricLoad,
}

impl Load {
    /// What runs always.
    pub fn idle(fit: &Fit) -> Load {
        let sets = &fit.rig.sets;
        let hotel = ElectricLoad { power: sets.hotel_load, power_factor: sets.hotel_power_factor };
        // The same rig on land would hold itself.
        let power = sets.station_load.filter(|_| fit.well.sea_bed().is_some()).unwrap_or(0.0);
        let station = ElectricLoad { power, ..hotel };
        Load { pumps: NONE, drive: NONE, drawworks: NONE, auxiliary: NONE, hotel, station }
    }

    /// The consumers in one row, in the order of the fields.
    pub fn consumers(&self) -> [ElectricLoad; 6] {
        [self.pumps, self.drive, self.drawworks, self.auxiliary, self.hotel, self.station]
    }

    /// Power of all together. [W]
    pub fn total(&self) -> f64 {
        self.consumers().iter().map(|load| load.power).sum()
    }

    /// All together with their power factor: the measured one of the rig file, where it is given.
    pub fn at_bus<R: Recorder>(&self, fit: &Fit, rec: &mut R) -> BusSum {
        match fit.rig.sets.power_factor {
            Some(power_factor) => bus_sum(&[ElectricLoad { power: self.total(), power_factor }], rec),
            None => bus_sum(&self.consumers(), rec),
        }
    }

    /// Consumers of a situation, or the entry without which they are not known.
    pub fn of<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Load, &'static str> {
        let fit = scene.fit();
        let situation = &scene.situation;
        let mut load = Load::idle(fit);
        if situation.flow_rate > 0.0 {
            (load.pumps, load.auxiliary) = pumps(scene, rec)?;
            load.drive = drive(scene, rec);
        }
        if situation.operation.motion() == Motion::Up && situation.pipe_speed > 0.0 {
            load.drawworks = lifting(scene, rec);
        }
        load.show(rec);
        Ok(load)
    }

    /// Writes down what each consumer draws.
    pub(super) fn show<R: Recorder>(&self, rec: &mut R) {
        rec.heading("load at the bus");
        let rows = [
            ("mud pumps", self.pumps.power),
            ("rotary drive", self.drive.power),
            ("drawworks", self.drawworks.power),
            ("auxiliaries of the pumps", self.auxiliary.power),
            ("hotel load", self.hotel.power),
            ("thrusters", self.station.power),
            ("all together", self.total()),
        ];
        for (what, power) in rows.into_iter().filter(|(_, power)| *power > 0.0) {
            rec.given(what, power, Kind::Power);
        }
    }
}

/// Mud pumps of a scene that pumps, with their auxiliaries; or the entry without which they are not known.
pub(super) fn pumps<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<(ElectricLoad, ElectricLoad), &'static str> {
    let rig = &scene.fit().rig;
    let flow = scene.flow(rec);
    if let Some(entry) = flow.missing {
        return Err(entry);
    }
    rec.heading("mud pumps");
    let flow_rate = scene.situation.flow_rate;
    let shaft = rec.take(PumpInputPower {
        pressure: flow.standpipe.max(0.0),
        flow_rate,
        mechanical_efficiency: rig.pump.mechanical_efficiency,
    });
    let boosting = crate::circulating::pumps::booster_pressure(scene, rec)?.map_or(0.0, |pressure| {
        let flow_rate = scene.situation.booster;
        rec.take(PumpInputPower { pressure, flow_rate, mechanical_efficiency: rig.pump.mechanical_efficiency })
    });
    // A pump whose output is not known is taken at full speed; what misses then is asked by `circulating/pump-speed`.
    let speed = crate::circulating::pumps::pump_output(scene, rec).map_or(rig.pump.speed, |pump_output| {
        rec.take(PumpSpeed { flow_rate, pumps: scene.section().drilling.pumps_on.max(1) as f64, pump_output })
    });
    let pumps = drive_load(rig.drives.current, &rig.drives.chain, shaft + boosting, speed / rig.pump.speed, rec);
    Ok((pumps, ElectricLoad { power: rig.sets.auxiliary_load, power_factor: rig.sets.hotel_power_factor }))
}

/// Rotary drive of a scene that turns.
pub(super) fn drive<R: Recorder>(scene: &Scene, rec: &mut R) -> ElectricLoad {
    let rotary_speed = scene.situation.rotary_speed;
    if rotary_speed <= 0.0 {
        return NONE;
    }
    let rig = &scene.fit().rig;
    let torque = scene.drag(rec).surface_torque;
    rec.heading("rotary drive");
    let shaft = rec.take(RotaryPower { torque, rotary_speed });
    drive_load(rig.drives.current, &rig.drives.chain, shaft, rotary_speed / rig.drive.speed, rec)
}

/// Weight of block, hook and top drive. [N]
pub(super) fn travelling_weight<R: Recorder>(fit: &Fit, rec: &mut R) -> f64 {
    rec.take(TravellingWeight { block_weight: fit.rig.block.weight, drive_weight: fit.rig.drive.weight })
}

/// Drawworks at a shaft power, their motor at a share of its full speed.
pub(super) fn drawworks<R: Recorder>(fit: &Fit, shaft: f64, speed_share: f64, rec: &mut R) -> ElectricLoad {
    let drives = &fit.rig.drives;
    // The drawworks' own gear stands in their efficiency: their input power is the motor's output.
    drive_load(drives.current, &DriveChain { gear: 1.0, ..drives.chain }, shaft, speed_share, rec)
}

/// Drawworks that lift the string of a scene at its speed, or as fast as their own power lets them.
fn lifting<R: Recorder>(scene: &Scene, rec: &mut R) -> ElectricLoad {
    let fit = scene.fit();
    let rig = &fit.rig;
    let string_load = scene.drag(rec).surface_tension;
    rec.heading("drawworks");
    let travelling_weight = travelling_weight(fit, rec);
    let hook_load = rec.take(HookLoad { string_load, travelling_weight }).max(0.0);
    let Tackle { lines, sheave_factor } = tackle(scene);
    let tackle_efficiency = rec.take(TackleEfficiency { lines, sheave_factor });
    let wanted = rec.take(DrawworksPower {
        hook_load,
        block_speed: scene.situation.pipe_speed,
        tackle_efficiency,
        drum_efficiency: rig.drawworks.efficiency,
    });
    let shaft = wanted.min(rig.drawworks.power);
    if wanted > rig.drawworks.power {
        rec.note(|| "More than the drawworks have: the block goes slower, and their own power is what they draw.".to_owned());
        rec.given("input power of the drawworks", rig.drawworks.power, Kind::Power);
    }
    drawworks(fit, shaft, 1.0, rec)
}
