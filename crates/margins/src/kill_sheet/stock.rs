//! Barite, room in the pits and time.

use super::course::Course;
use super::{Ground, Remark, Slow};
use crate::circulating::weight_up::BARITE;
use rigwright_physics::circulating::mixing::{WeightUpMass, WeightUpVolume};
use rigwright_physics::control::kill::PumpingTime;
use rigwright_physics::{Kind, Recorder};

/// What the kill uses up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Mud to be weighted up: hole, string and active pits. [m³]
    pub mud: f64,
    /// Whether the active pits are in it; the files may not give them.
    pub with_pits: bool,
    /// Barite for it. [kg]
    pub barite: f64,
    /// Barite on site. [kg]
    pub barite_on_site: Option<f64>,
    /// Time to mix it in, where the hoppers' rate is known. [s]
    pub mixing: Option<f64>,
    /// Room in the pits above what they hold now; `None` when nobody gave their capacity. [m³]
    pub room_on_site: Option<f64>,
    /// What the barite adds to the volume. [m³]
    pub growth: f64,
    /// Largest gain of the gas on its way, the larger of both methods. [m³]
    pub gain: Option<f64>,
    /// Time to fill the string with kill mud. [s]
    pub to_bit: Option<f64>,
    /// Time from bit to surface. [s]
    pub bottoms_up: Option<f64>,
    /// Pumping time of driller's method: bottoms up, then a circulation with kill mud. [s]
    pub driller: Option<f64>,
    /// Pumping time of wait and weight: one circulation. [s]
    pub weighted: Option<f64>,
}

impl Stock {
    /// Room that the pits need above what they hold now. [m³]
    pub fn room(&self) -> f64 {
        self.growth + self.gain.unwrap_or(0.0)
    }

    pub(super) fn cautions(&self) -> Vec<Remark> {
        let mut cautions = Vec::new();
        match self.barite_on_site {
            Some(on_site) if on_site < self.barite => cautions.push(
                Remark::new("the barite on site does not weight up hole, string and pits")
                    .with("wanted", self.barite, Kind::Mass)
                    .with("on site", on_site, Kind::Mass),
            ),
            Some(_) => {}
            None => cautions.push(Remark::new("barite on site is unknown (`rig.pits.barite`)")),
        }
        if !self.with_pits {
            cautions.push(Remark::new(
                "the active volume is unknown (`rig.pits.active`): barite and room are told for the hole alone",
            ));
        }
        match self.room_on_site {
            Some(room) if room < self.room() => {
                let full = Remark::new("the pits do not take the gain and what barite adds");
                cautions.push(full.with("wanted", self.room(), Kind::Volume).with("room", room, Kind::Volume));
            }
            Some(_) => {}
            None => cautions.push(Remark::new(
                "room in the pits is unknown (`rig.pits.capacity`): see that the volume named above fits before the gas comes",
            )),
        }
        cautions
    }
}

/// Barite, room and time of a kill.
pub(super) fn stock<R: Recorder>(ground: Ground, slow: Option<&Slow>, driller: Option<&Course>, rec: &mut R) -> Stock {
    let Ground { scene, volumes, kill_weight, .. } = ground;
    let pits = scene.fit().rig.pits;
    let density = scene.section().mud.weight;
    let volume = volumes.circulation() + pits.active.unwrap_or(0.0);
    rec.heading("barite and room");
    let barite = rec.take(WeightUpMass { volume, density, wanted_density: kill_weight, weighting_density: BARITE });
    let growth = rec.take(WeightUpVolume { volume, density, wanted_density: kill_weight, weighting_density: BARITE });
    let mut time = |volume: f64| {
        let pump_speed = slow?.reading.pump_speed;
        Some(rec.take(PumpingTime { strokes: volumes.strokes(volume), pump_speed }))
    };
    Stock {
        mud: volume,
        with_pits: pits.active.is_some(),
        barite,
        barite_on_site: pits.barite,
        mixing: pits.mixing_rate.map(|rate| barite / rate),
        room_on_site: pits
            .capacity
            .map(|capacity| (capacity - pits.active.unwrap_or(0.0) - pits.reserve.unwrap_or(0.0)).max(0.0)),
        growth,
        gain: driller.map(|course| course.gain.value),
        to_bit: time(volumes.to_bit()),
        bottoms_up: time(volumes.bit_to_surface()),
        driller: time(volumes.bit_to_surface() + volumes.circulation()),
        weighted: time(volumes.circulation()),
    }
}
