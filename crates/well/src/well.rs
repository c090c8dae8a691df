//! The well as a whole.

use crate::{Formation, Geotherm, Heat, LastDone, Prices, Section, Watched};
use rigwright_physics::trajectory::Path;

/// A checked well.
#[derive(Clone, Debug, PartialEq)]
pub struct Well {
    /// Name of the well.
    pub name: String,
    /// Where the well stands.
    pub kind: WellKind,
    /// Whose rules apply, as the user writes it; `None` shows no rule as met.
    pub jurisdiction: Option<String>,
    /// Name of the depth datum, usually the rotary table.
    pub datum: String,
    /// Height of the datum above ground, or above sea level offshore. [m]
    pub elevation: f64,
    /// Depth of water below sea level; zero on land. [m]
    pub water_depth: f64,
    /// The sea under a floating rig.
    pub sea: Option<Sea>,
    /// The air that the engines breathe.
    pub site: Watched<Site>,
    /// The path through the rock, from the survey.
    pub path: Path,
    /// Layers from the top down; never empty.
    pub formations: Vec<Formation>,
    /// Temperature of the undisturbed rock.
    pub geotherm: Geotherm,
    /// What the temperature of circulating mud rests on.
    pub heat: Watched<Heat>,
    /// Hole sections in the order of drilling; never empty.
    pub sections: Vec<Section>,
    /// Friction between string and hole.
    pub friction: Watched<Friction>,
    /// Margins that the crew wants kept in the mud window and on the hook.
    pub margins: Watched<Margins>,
    /// Wanted reserves as shares of a capacity.
    pub reserves: Watched<Reserves>,
    /// Design factors of casing.
    pub casing_factors: Watched<CasingFactors>,
    /// The kick that the well must be able to take.
    pub kick: Watched<DesignKick>,
    /// What material costs.
    pub prices: Watched<Prices>,
    /// When what was last tested or drilled for.
    pub last_done: Vec<LastDone>,
}

impl Well {
    /// Measured depth to the end of the last section. [m]
    pub fn total_depth(&self) -> f64 {
        self.sections.last().map_or(0.0, |section| section.bottom)
    }

    /// Depth of the sea bed where preventers and casing heads stand on it; `None` where they stand at surface. The path runs upright
    /// down to there, so that it is a measured and a vertical depth. [m]
    pub fn sea_bed(&self) -> Option<f64> {
        (self.kind == WellKind::Floating).then_some(self.elevation + self.water_depth)
    }

    /// The layer at a vertical depth; the first above everything, the last below.
    pub fn formation_at(&self, vertical_depth: f64) -> &Formation {
        let below = self.formations.partition_point(|formation| formation.top <= vertical_depth);
        &self.formations[below.saturating_sub(1)]
    }

    /// The casing or liner whose shoe is deepest above the section: the one that is last in the hole
    /// while this section is drilled.
    pub fn casing_above(&self, section: usize) -> Option<&crate::Casing> {
        self.sections[..section].iter().rev().find_map(|above| above.casing.as_ref())
    }
}

/// Where the well stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WellKind {
    /// On land.
    Land,
    /// Offshore on legs or a platform; preventers at surface.
    BottomSupported,
    /// Offshore afloat; preventers on the sea bed.
    Floating,
}

/// The sea under a floating rig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sea {
    /// Density of the water. [kg/m³]
    pub density: f64,
    /// What the rig does in the worst sea in which it still works.
    pub heave: Option<Heave>,
}

/// Up and down of a floating rig.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heave {
    /// From crest to trough. [m]
    pub height: f64,
    /// From crest to crest. [s]
    pub period: f64,
}

/// The air that the engines breathe, at its hottest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    /// Height of the ground above sea level. [m]
    pub altitude: Option<f64>,
    /// Temperature. [K]
    pub air_temperature: Option<f64>,
    /// Relative humidity. [-]
    pub humidity: Option<f64>,
}

/// Friction factors between string and hole wall. [-]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Friction {
    /// Inside casing.
    pub cased: f64,
    /// In open hole.
    pub open: f64,
}

/// Margins wanted on top of the bare limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// Mud weight above the pore pressure, pumps off. [kg/m³]
    pub trip: f64,
    /// Mud weight above the pore pressure left while pulling, swab computed. [kg/m³]
    pub swab: f64,
    /// Mud weight below the fracture pressure, flowing or running in. [kg/m³]
    pub fracture: f64,
    /// Pull above the pick-up weight. [N]
    pub overpull: f64,
}

/// Shares of a capacity that the crew wants left over. [-]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reserves {
    /// Mast, blocks, hook, elevators.
    pub load: f64,
    /// Drawworks, drilling line, pumps: pull, speed and power.
    pub machinery: f64,
    /// Pipe, joints and drive torque.
    pub strength: f64,
    /// Pressure ratings.
    pub pressure: f64,
    /// Generator sets.
    pub power: f64,
    /// Kick volume, stored control fluid, hole cleaning, racking room.
    pub volume: f64,
}

/// Design factors of casing: what it bears over what is asked of it. The one for burst is the string's own. [-]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CasingFactors {
    /// Collapse.
    pub collapse: f64,
    /// Tension of body and connection.
    pub tension: f64,
    /// Yield strength over the equivalent stress.
    pub triaxial: f64,
}

/// The kick that the well must be able to shut in and circulate out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DesignKick {
    /// Influx at bottom conditions. [m³]
    pub volume: Option<f64>,
    /// Pore pressure above the mud weight, as a mud weight. [kg/m³]
    pub intensity: Option<f64>,
    /// Gravity of the influx gas, air = 1.
    pub gas_gravity: f64,
    /// Share of hydrogen sulphide in the gas, by moles. [-]
    pub sulphide: Option<f64>,
    /// Gain at which the alarm goes. [m³]
    pub alarm_gain: Option<f64>,
    /// How fast it flows in. [m³/s]
    pub inflow: Option<f64>,
    /// Time from the alarm to the order to close: pick up, pumps off, flow check. [s]
    pub reaction_time: Option<f64>,
}
