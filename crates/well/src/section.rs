//! A hole section: what is drilled with one bit size, one mud and one string.

use crate::{CandidateMud, Casing, ManagedPressure, Motion, Mud, Part, ShallowGas, Sticking, Watched};
use jiff::civil::Date;

/// A hole section.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Name for print, such as "12 1/4 in".
    pub name: String,
    /// Measured depth where it begins: the end of the section above. [m]
    pub top: f64,
    /// Measured depth where it ends. [m]
    pub bottom: f64,
    /// Bit diameter. [m]
    pub hole_diameter: f64,
    /// Extra volume of open hole over the bit's, as a share. [-]
    pub washout: f64,
    /// Where the mud goes that comes up the hole.
    pub returns: ReturnTo,
    /// The mud.
    pub mud: Watched<Mud>,
    /// The drill string from the bit up; the first part is the bit, the last reaches to surface.
    pub string: Watched<Vec<Part>>,
    /// How it is drilled.
    pub drilling: Watched<Drilling>,
    /// How pipe is moved in and out.
    pub tripping: Watched<Tripping>,
    /// What hole cleaning rests on.
    pub cleaning: Watched<Cleaning>,
    /// How the pipe lies in the hole.
    pub lie: Lie,
    /// Muds that could be used instead.
    pub candidate_muds: Watched<Vec<CandidateMud>>,
    /// What sticking rests on.
    pub sticking: Watched<Sticking>,
    /// Depth and stroke counter as read while drilling, in the order of drilling.
    pub progress: Vec<Progress>,
    /// Back pressure, where it is drilled with managed pressure.
    pub managed_pressure: Option<ManagedPressure>,
    /// Shallow gas that it may meet, where it is drilled on the diverter.
    pub shallow_gas: Option<ShallowGas>,
    /// Slow circulating rates read in this section.
    pub slow_rates: Vec<SlowRate>,
    /// Hook loads read in this section.
    pub hook_loads: Vec<HookLoadReading>,
    /// What is cemented at its end.
    pub casing: Watched<Option<Casing>>,
}

impl Section {
    /// Diameter of the open hole, with washout spread evenly. [m]
    pub fn open_diameter(&self) -> f64 {
        self.hole_diameter * (1.0 + self.washout).sqrt()
    }

    /// Where the casing of this section ends, or the section itself when it stays open. [m]
    pub fn cased_to(&self) -> f64 {
        self.casing.as_ref().map_or(self.top, |casing| casing.shoe)
    }
}

/// Where the mud goes that comes up the hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReturnTo {
    /// To the rig.
    Surface,
    /// Out at the sea bed, before there is a riser.
    SeaBed,
}

/// Drilling parameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drilling {
    /// Flow rate. [m³/s]
    pub flow_rate: f64,
    /// Flow through the booster line into the riser; nought without. [m³/s]
    pub booster: f64,
    /// Temperature of the mud that is pumped in. [K]
    pub inlet_temperature: Option<f64>,
    /// Rotary speed. [rad/s]
    pub rotary_speed: f64,
    /// Weight on bit. [N]
    pub weight_on_bit: f64,
    /// Rate of penetration. [m/s]
    pub penetration_rate: f64,
    /// Torque that the bit takes. [N·m]
    pub bit_torque: f64,
    /// Number of pumps that share the flow.
    pub pumps_on: usize,
    /// Diameter of the liners in the pumps; one of the rig's choices. [m]
    pub liner: f64,
    /// Time to add a stand. [s]
    pub connection_time: f64,
    /// How far the string is lifted off bottom for it, pumping and turning. [m]
    pub off_bottom: f64,
    /// Block speed on that way. [m/s]
    pub off_bottom_speed: f64,
    /// Bits that the section takes: a round trip for each but the first.
    pub bits: u32,
    /// How often each stand, or each single with a kelly, is reamed before the next is added.
    pub reamed: u32,
    /// Block speed while reaming. [m/s]
    pub reaming_speed: f64,
    /// Length cored at the end of the section. [m]
    pub cored: f64,
}

/// Speeds of the pipe. Means over a stand; the peak within a stand is in the surge method.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tripping {
    /// Pulling out. [m/s]
    pub pulling_speed: f64,
    /// Running in. [m/s]
    pub running_speed: f64,
    /// Time in slips for each stand. [s]
    pub connection_time: f64,
    /// Trips to the last shoe and back at the end of the section.
    pub short_trips: u32,
    /// Length from surface down that stands empty inside while the string is run in on a float. [m]
    pub run_empty: Option<f64>,
    /// Heavy mud pumped before pulling, so that the pipe comes out dry.
    pub slug: Option<Slug>,
}

/// Heavy mud that keeps the pipe dry on the way out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slug {
    /// Its volume. [m³]
    pub volume: f64,
    /// Its weight. [kg/m³]
    pub weight: f64,
}

/// How the pipe lies in the hole, for friction of the pumped mud.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lie {
    /// Least gap beside the pipe over that of a pipe in the middle. [-]
    pub standoff: f64,
    /// Loss while turning over that without. [-]
    pub rotation_factor: f64,
}

/// Cuttings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cleaning {
    /// Diameter of the cuttings. [m]
    pub cutting_size: f64,
    /// Density of the rock. [kg/m³]
    pub cutting_density: f64,
    /// Smallest transport ratio wanted in near-vertical hole. [-]
    pub transport_ratio: f64,
    /// Largest share of cuttings wanted in the annulus. [-]
    pub cuttings_limit: f64,
    /// Fastest mean velocity that the wall of the open hole bears. [m/s]
    pub most_velocity: Option<f64>,
    /// Depth from one sample to the next. [m]
    pub sample_interval: Option<f64>,
}

/// Depth of the hole and strokes of all pumps, read together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// Measured depth of the hole. [m]
    pub depth: f64,
    /// Strokes of all pumps since the counter was set.
    pub strokes: f64,
}

/// A hook load that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HookLoadReading {
    /// Measured depth of the bit. [m]
    pub depth: f64,
    /// How the string moved: up or down, without turning.
    pub motion: Motion,
    /// Hook load, block and top drive included. [N]
    pub load: f64,
    /// Whether it is corrected for the friction of the sheaves; otherwise it is what an indicator on the dead line shows.
    pub corrected: bool,
    /// Day of the reading.
    pub date: Option<Date>,
}

/// A slow circulating rate, read beforehand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlowRate {
    /// Pump speed. [1/s]
    pub pump_speed: f64,
    /// Standpipe pressure at that speed. [Pa]
    pub pressure: f64,
    /// Loss in the choke line at that speed, measured. [Pa]
    pub choke_line_loss: Option<f64>,
    /// Mud weight when it was read. [kg/m³]
    pub weight: f64,
    /// Measured depth when it was read. [m]
    pub depth: f64,
    /// Number of the pump that it was read with.
    pub pump: Option<u32>,
    /// Liner in the pump that it was read with. [m]
    pub liner: Option<f64>,
    /// Day of the reading.
    pub date: Option<Date>,
}
