//! The block in motion: how line lies on the drum by layer, what the brake takes up, and the time of a trip stand by stand.
//!
//! A stand is moved from rest to rest: speeding up, at speed, slowing down. The speed is the least of what power, the
//! rated speed of the line and the hole allow at the load of that stand.

use super::drawworks::{BlockSpeedByLine, BlockSpeedByPower, DrumDiameter, LinePull, LineSpeed, StandTime};
use crate::{Formula, FormulaRecord, Kind, Recorder, STANDARD_GRAVITY, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] =
    &[LineOnLayer::RECORD, MeanAcceleration::RECORD, BrakeTorque::RECORD, BrakePower::RECORD, StopEnergy::RECORD];

formula! {
    /// Length of line that a full layer of the drum holds.
    pub struct LineOnLayer;
    slug "line-on-layer";
    equation "L = π n D_n";
    law Homogeneous;
    source "geometry";
    given {
        /// wraps of a full layer
        wraps "n" Ratio must NON_NEGATIVE;
        /// diameter at the middle of the line
        drum_diameter "D_n" Diameter must NON_NEGATIVE;
    }
    /// length of line
    gives "L" Depth;
    value |f| PI * f.wraps * f.drum_diameter
}

formula! {
    /// One acceleration that takes as long as speeding up and slowing down with two.
    pub struct MeanAcceleration;
    slug "mean-acceleration";
    equation "a = 2 a₁ a₂/(a₁ + a₂)";
    law Homogeneous;
    source "kinematics";
    given {
        /// speeding up
        acceleration "a₁" Acceleration must at_least(1e-6) valid between(0.1, 3.0);
        /// slowing down
        deceleration "a₂" Acceleration must at_least(1e-6) valid between(0.1, 3.0);
    }
    /// mean acceleration
    gives "a" Acceleration;
    value |f| 2.0 * f.acceleration * f.deceleration / (f.acceleration + f.deceleration)
}

formula! {
    /// Torque with which the brake holds a pull of the fast line.
    pub struct BrakeTorque;
    slug "brake-torque";
    equation "T = F D_n/2";
    law Homogeneous;
    source "statics";
    given {
        /// pull of the fast line
        fast_line "F" Force must NON_NEGATIVE;
        /// diameter at the middle of the line: of the full drum, the worst case
        drum_diameter "D_n" Diameter must NON_NEGATIVE;
    }
    /// torque
    gives "T" Torque;
    value |f| 0.5 * f.fast_line * f.drum_diameter
}

formula! {
    /// Power that brakes take up while a load is lowered at a steady speed.
    ///
    /// Friction of the sheaves takes its share: while lowering, the fast line pulls less than the load over the lines.
    pub struct BrakePower;
    slug "brake-power-lowering";
    equation "P = F N v";
    law Homogeneous;
    source "definition of power";
    given {
        /// pull of the fast line while lowering
        fast_line "F" Force must NON_NEGATIVE;
        /// lines strung
        lines "N" Count must between(1.0, 40.0) valid between(2.0, 16.0);
        /// block speed
        block_speed "v" Speed must NON_NEGATIVE;
    }
    /// power
    gives "P" Power;
    value |f| f.fast_line * f.lines * f.block_speed
}

formula! {
    /// Energy that brakes take up to stop a load: its motion and its weight over the way it still goes.
    pub struct StopEnergy;
    slug "stop-energy";
    equation "Q = W [v²/(2 g) + s]";
    law Homogeneous;
    source "conservation of energy";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// block speed
        block_speed "v" Speed must NON_NEGATIVE;
        /// acceleration of free fall
        gravity "g" Acceleration must at_least(1e-3) valid between(9.7, 9.9) default STANDARD_GRAVITY;
        /// way until it stands
        way "s" Depth must NON_NEGATIVE;
    }
    /// energy
    gives "Q" Energy;
    value |f| f.hook_load * (f.block_speed * f.block_speed / (2.0 * f.gravity) + f.way)
}

/// Drum and line.
#[derive(Clone, Copy, Debug)]
pub struct Drum {
    /// Diameter of the bare drum. [m]
    pub bare_diameter: f64,
    /// Diameter of the line. [m]
    pub line_diameter: f64,
    /// Wraps of a full layer. [-]
    pub wraps: f64,
    /// Wraps that stay on the drum with the block at its lowest. [-]
    pub dead_wraps: f64,
}

/// A layer on the drum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrumLayer {
    /// Number, the first on the drum. [-]
    pub layer: u32,
    /// Diameter at the middle of the line. [m]
    pub diameter: f64,
    /// Line wound since the lowest position of the block when the layer begins. [m]
    pub from: f64,
    /// And when it is full or the block is up. [m]
    pub to: f64,
}

/// More layers than any drum has.
const MOST_LAYERS: u32 = 40;

impl Drum {
    /// The layers from the lowest position of the block until this much line is wound on. [m]
    pub fn layers<R: Recorder>(&self, wound: f64, rec: &mut R) -> Vec<DrumLayer> {
        let Drum { bare_diameter, line_diameter, wraps, dead_wraps } = *self;
        let mut layers = Vec::new();
        let (mut from, mut dead) = (0.0, dead_wraps.max(0.0));
        for layer in 1..=MOST_LAYERS {
            let drum_diameter = rec.take(DrumDiameter { bare_diameter, line_diameter, layer: f64::from(layer) });
            let free = (wraps - dead).max(0.0);
            dead = (dead - wraps).max(0.0);
            let to = (from + rec.take(LineOnLayer { wraps: free, drum_diameter })).min(wound);
            if to > from {
                layers.push(DrumLayer { layer, diameter: drum_diameter, from, to });
            }
            from = to;
            if from >= wound {
                break;
            }
        }
        layers
    }
}

/// What a layer gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayerCourse {
    /// The layer.
    pub layer: DrumLayer,
    /// Way of the block above its lowest position when the layer begins. [m]
    pub block_from: f64,
    /// And when it ends. [m]
    pub block_to: f64,
    /// Pull of the fast line that the torque gives. [N]
    pub line_pull: f64,
    /// Block speed that the speed of the drum gives. [m/s]
    pub block_speed: f64,
}

/// Torque and speed of the drum.
#[derive(Clone, Copy, Debug)]
pub struct DrumDrive {
    /// Torque on the drum. [N·m]
    pub torque: f64,
    /// Speed of the drum. [rad/s]
    pub drum_speed: f64,
    /// Lines strung. [-]
    pub lines: f64,
}

/// Pull and block speed layer by layer, over a way of the block. The last layer has the least pull.
pub fn layer_courses<R: Recorder>(drum: &Drum, drive: &DrumDrive, block_way: f64, rec: &mut R) -> Vec<LayerCourse> {
    let DrumDrive { torque, drum_speed, lines } = *drive;
    let layers = drum.layers(block_way * lines, rec);
    let courses: Vec<LayerCourse> = layers
        .into_iter()
        .map(|layer| {
            let drum_diameter = layer.diameter;
            let line_pull = rec.take(LinePull { torque, drum_diameter });
            let line_speed = rec.take(LineSpeed { drum_speed, drum_diameter });
            let block_speed = rec.take(BlockSpeedByLine { line_speed, lines });
            LayerCourse { layer, block_from: layer.from / lines, block_to: layer.to / lines, line_pull, block_speed }
        })
        .collect();
    const COLUMNS: &[(&str, Kind)] = &[
        ("layer", Kind::Count),
        ("diameter", Kind::Diameter),
        ("block from", Kind::Depth),
        ("block to", Kind::Depth),
        ("fast-line pull", Kind::Force),
        ("block speed", Kind::Speed),
    ];
    rec.table("pull and speed by layer", COLUMNS, || {
        let row = |course: &LayerCourse| {
            let LayerCourse { layer, block_from, block_to, line_pull, block_speed } = *course;
            vec![f64::from(layer.layer), layer.diameter, block_from, block_to, line_pull, block_speed]
        };
        courses.iter().map(row).collect()
    });
    courses
}

/// How the rig moves the block.
#[derive(Clone, Copy, Debug)]
pub struct Hoist {
    /// Input power of the drawworks. [W]
    pub power: f64,
    /// Efficiency of block and tackle. [-]
    pub tackle_efficiency: f64,
    /// Share of input power that reaches the drum. [-]
    pub drum_efficiency: f64,
    /// Greatest speed of the fast line. [m/s]
    pub line_speed: f64,
    /// Lines strung. [-]
    pub lines: f64,
    /// Speeding up. [m/s²]
    pub acceleration: f64,
    /// Slowing down. [m/s²]
    pub deceleration: f64,
    /// Power that the brakes take up steadily while lowering, where it is known. [W]
    pub brake_power: Option<f64>,
    /// Weight of block, hook and top drive. [N]
    pub travelling_weight: f64,
    /// Time in slips for each stand: unlatch, rack or stab, make up. [s]
    pub connection: f64,
}

/// One stand of a trip.
#[derive(Clone, Copy, Debug)]
pub struct TripStand {
    /// Bit depth when the stand is moved. [m]
    pub bit_depth: f64,
    /// Length of the stand. [m]
    pub length: f64,
    /// Load of the string on the elevators while it moves. [N]
    pub string_load: f64,
    /// Greatest speed of the string that the hole allows: swab, surge or the house rule. [m/s]
    pub hole_speed: f64,
}

/// Direction of a trip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TripWay {
    /// Pulling out: loaded up, empty down.
    Out,
    /// Running in: empty up, loaded down. Lowering is limited by line, hole and brake, not by the drawworks' power.
    In,
}

/// Time of a trip.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TripTime {
    /// Block with the string. [s]
    pub loaded: f64,
    /// Empty block. [s]
    pub empty: f64,
    /// In slips. [s]
    pub connections: f64,
}

impl TripTime {
    /// All together. [s]
    pub fn total(&self) -> f64 {
        self.loaded + self.empty + self.connections
    }
}

impl Hoist {
    fn by_power<R: Recorder>(&self, hook_load: f64, rec: &mut R) -> f64 {
        let Hoist { power, tackle_efficiency, drum_efficiency, .. } = *self;
        rec.take(BlockSpeedByPower { power, tackle_efficiency, drum_efficiency, hook_load: hook_load.max(1.0) })
    }

    /// The load gives its power to sheaves and brakes; here the brakes take all of it, which is on the safe side.
    fn by_brake<R: Recorder>(&self, hook_load: f64, rec: &mut R) -> f64 {
        let Some(power) = self.brake_power else { return f64::INFINITY };
        let hook_load = hook_load.max(1.0);
        rec.take(BlockSpeedByPower { power, tackle_efficiency: 1.0, drum_efficiency: 1.0, hook_load })
    }

    /// Speeds of a stand: loaded, then empty. [m/s]
    fn speeds<R: Recorder>(&self, stand: &TripStand, way: TripWay, rec: &mut R) -> (f64, f64) {
        let by_line = rec.take(BlockSpeedByLine { line_speed: self.line_speed, lines: self.lines });
        let (string, block) = (stand.string_load + self.travelling_weight, self.travelling_weight);
        let (loaded, empty) = match way {
            TripWay::Out => (self.by_power(string, rec).min(by_line), by_line),
            TripWay::In => (self.by_brake(string, rec).min(by_line), self.by_power(block, rec).min(by_line)),
        };
        // A rig that cannot move the string is found by its line pull; here it only takes very long.
        (loaded.min(stand.hole_speed).max(1e-6), empty.max(1e-6))
    }

    /// Times of one stand.
    fn stand<R: Recorder>(&self, stand: &TripStand, way: TripWay, rec: &mut R) -> TripTime {
        let Hoist { acceleration, deceleration, .. } = *self;
        let (loaded, empty) = self.speeds(stand, way, rec);
        let acceleration = rec.take(MeanAcceleration { acceleration, deceleration });
        let loaded = rec.take(StandTime { stand: stand.length, block_speed: loaded, acceleration });
        let empty = rec.take(StandTime { stand: stand.length, block_speed: empty, acceleration });
        TripTime { loaded, empty, connections: self.connection }
    }

    /// Time of a trip, stand by stand in the order in which they are moved.
    pub fn trip<R: Recorder>(&self, stands: &[TripStand], way: TripWay, rec: &mut R) -> TripTime {
        let mut total = TripTime::default();
        let mut rows = Vec::new();
        let mut slowest: Option<(f64, &TripStand)> = None;
        for stand in stands {
            let time = self.stand(stand, way, &mut crate::Off);
            total.loaded += time.loaded;
            total.empty += time.empty;
            total.connections += time.connections;
            if R::ON {
                if slowest.is_none_or(|(most, _)| time.loaded > most) {
                    slowest = Some((time.loaded, stand));
                }
                rows.push(vec![stand.bit_depth, stand.string_load, time.loaded, time.empty, total.total()]);
            }
        }
        if let (Some(first), Some((_, slowest)), Some(last)) = (stands.first(), slowest, stands.last()) {
            for (stand, title) in [(first, "first stand"), (slowest, "slowest stand"), (last, "last stand")] {
                rec.heading(title);
                self.stand(stand, way, rec);
            }
        }
        const COLUMNS: &[(&str, Kind)] = &[
            ("bit depth", Kind::Depth),
            ("string load", Kind::Force),
            ("loaded", Kind::Time),
            ("empty", Kind::Time),
            ("since the start", Kind::Time),
        ];
        rec.table("the trip stand by stand", COLUMNS, || rows);
        total
    }
}

#[cfg(test)]
mod tests;
