//! Drill pipe pressure against strokes while kill mud fills the string, for any path and any string.
//!
//! The front of the kill mud is followed by its vertical depth and by the share of the slow-rate friction behind it. The
//! share comes from the pressure-loss model part by part, nozzles last; the friction of the annulus is spread over the parts,
//! as the final circulating pressure books it. The straight line of the training sheet stands beside.

use super::{Ground, Remark, Slow, Volumes};
use crate::Scene;
use crate::fields::runs::{surface, tool_loss};
use rigwright_physics::circulating::bit::{BitPressureLoss, DISCHARGE_COEFFICIENT};
use rigwright_physics::circulating::losses::{Flow, Stretch, stretch_loss};
use rigwright_physics::circulating::passage::Passage;
use rigwright_physics::control::kill::{
    FinalCirculatingPressure, InitialCirculatingPressure, PressureStep, SchedulePressure, SchedulePressureByWeight,
    StraightSchedulePressure,
};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::PartKind;

/// Even steps of strokes.
const STEPS: u32 = 10;
/// Inclination that a leg must gain or lose for its ends to have rows of their own. [rad]
const TURN: f64 = 0.05;
/// The model may miss the reading by this share before somebody should ask why. [-]
const UNLIKE: f64 = 0.3;

/// A row of the schedule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Strokes of kill mud. [-]
    pub strokes: f64,
    /// Volume of kill mud. [m³]
    pub volume: f64,
    /// Measured depth of its front. [m]
    pub depth: f64,
    /// Vertical depth of its front. [m]
    pub vertical_depth: f64,
    /// Share of the slow-rate friction behind the front. [-]
    pub friction_share: f64,
    /// Drill pipe pressure to hold. [Pa]
    pub pressure: f64,
    /// The same by the weight of the kill mud, which holds formation pressure without what rounding adds. [Pa]
    pub by_weight: f64,
    /// On the straight line from initial to final circulating pressure. [Pa]
    pub straight: f64,
}

/// Where the shares of friction come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shares {
    /// The pressure-loss model.
    Model,
    /// Measured depth: the fallback of training, for want of readings or nozzles.
    Depth,
}

/// The schedule.
#[derive(Clone, Debug)]
pub struct Schedule {
    /// Initial circulating pressure. [Pa]
    pub initial_pressure: f64,
    /// Final circulating pressure. [Pa]
    pub final_pressure: f64,
    /// Its rows; the last two have the kill mud at the bit, before and behind the nozzles.
    pub steps: Vec<Step>,
    /// Fall of the straight line for a hundred strokes. [Pa]
    pub per_hundred: f64,
    /// Where the shares come from.
    pub shares: Shares,
    /// Share of the friction that the nozzles take. [-]
    pub bit_share: f64,
    /// Slow rate pressure by the model. [Pa]
    pub model_pressure: Option<f64>,
    /// Slow rate pressure that the sheet rests on. [Pa]
    pub slow_pressure: f64,
}

impl Schedule {
    /// The row at which the straight line stands highest above what is needed, or deepest below it where it is never above.
    pub fn furthest(&self) -> Option<&Step> {
        let off = |step: &&Step| (step.straight - step.pressure).abs();
        self.steps.iter().max_by(|a, b| off(a).total_cmp(&off(b)))
    }

    pub(super) fn cautions(&self) -> Vec<Remark> {
        let mut cautions = Vec::new();
        if let Some(model) = self.model_pressure.filter(|model| (model / self.slow_pressure - 1.0).abs() > UNLIKE) {
            cautions.push(
                Remark::new("the slow rate pressure and the pressure-loss model are far apart: a washout, a plugged nozzle, a wrong reading or a wrong string")
                    .with("read", self.slow_pressure, Kind::Pressure)
                    .with("model", model, Kind::Pressure),
            );
        }
        if self.shares == Shares::Depth {
            cautions.push(Remark::new(
                "friction is shared by measured depth, since the model lacks the mud's readings or a tool's or the bit's loss: the nozzles' share is booked too early, which loads the weak point",
            ));
        }
        cautions
    }
}

/// What the model loses on the way to the bit at the slow rate. [Pa]
struct Losses {
    surface: f64,
    /// By length of the string, surface down.
    string: Vec<f64>,
    bit: f64,
    annulus: f64,
}

impl Losses {
    fn inside(&self) -> f64 {
        self.surface + self.string.iter().sum::<f64>() + self.bit
    }
}

/// `None` where the files do not give what the model needs.
fn losses(scene: &Scene, rate: f64) -> Option<Losses> {
    let prepared = scene.prepared_flow();
    let mud = prepared.mud.as_ref()?;
    let density = scene.section().mud.weight;
    let flow = Flow { rate, density };
    let loss = |passage, length| stretch_loss(prepared.method, mud, &Stretch { passage, length }, flow, &mut Off);
    let surface = surface(&scene.fit().rig.surface_lines, (prepared.method, mud), flow, &mut Off);
    let (mut string, mut bit) = (Vec::new(), 0.0);
    for piece in scene.string().iter().rev() {
        let crate::geometry::Pipe::Part(part) = piece.pipe else { continue };
        let tool = tool_loss(part, flow, &mut Off)?;
        let inner_diameter = part.inner_diameter;
        let bore = if inner_diameter > 0.0 { loss(Passage::Bore { inner_diameter }, piece.bottom - piece.top) } else { 0.0 };
        let nozzles = match (part.kind, part.flow_area) {
            (PartKind::Bit, Some(flow_area)) => {
                let discharge_coefficient = DISCHARGE_COEFFICIENT;
                BitPressureLoss { density, flow_rate: rate, flow_area, discharge_coefficient }.value()
            }
            (PartKind::Bit, None) => return None,
            _ => 0.0,
        };
        if inner_diameter > 0.0 {
            string.push(bore + tool);
            bit += nozzles;
        } else {
            bit += tool + nozzles;
        }
    }
    let around = |annulus: &&crate::geometry::Annulus| annulus.pipe_diameter > 0.0;
    let ring = |annulus: &crate::geometry::Annulus| {
        let (hole_diameter, pipe_diameter) = (annulus.hole_diameter, annulus.pipe_diameter);
        loss(Passage::Annulus { hole_diameter, pipe_diameter }, annulus.length())
    };
    let annulus = scene.annuli().iter().filter(around).map(ring).sum();
    Some(Losses { surface, string, bit, annulus })
}

/// Pressure that the model loses on the whole way at a flow rate; `None` where the files do not give what it needs. [Pa]
pub(super) fn modelled(scene: &Scene, rate: f64) -> Option<f64> {
    losses(scene, rate).map(|losses| losses.inside() + losses.annulus)
}

/// Friction in the annulus at the slow rate, above a measured depth, a riser left out. [Pa]
pub(crate) fn annular_friction(scene: &Scene, rate: f64, from: f64) -> Option<f64> {
    let prepared = scene.prepared_flow();
    let mud = prepared.mud.as_ref()?;
    let flow = Flow { rate, density: scene.section().mud.weight };
    let above = scene.annuli().iter().filter(|annulus| annulus.pipe_diameter > 0.0 && annulus.top < from && !annulus.riser);
    let loss = above.map(|annulus| {
        let (hole_diameter, pipe_diameter) = (annulus.hole_diameter, annulus.pipe_diameter);
        let passage = Passage::Annulus { hole_diameter, pipe_diameter };
        let stretch = Stretch { passage, length: annulus.bottom.min(from) - annulus.top };
        stretch_loss(prepared.method, mud, &stretch, flow, &mut Off)
    });
    Some(loss.sum())
}

/// The front of the kill mud after a volume: measured depth, and share of friction by length. [m, -]
fn front(volumes: &Volumes, shares: &[f64], volume: f64) -> (f64, f64) {
    let lengths = std::iter::once(&volumes.surface).chain(&volumes.string);
    let (mut above, mut share, mut depth) = (0.0, 0.0, 0.0);
    for (index, (length, friction)) in lengths.zip(shares).enumerate() {
        let part = if length.volume > 0.0 { ((volume - above) / length.volume).clamp(0.0, 1.0) } else { 1.0 };
        share += friction * part;
        if index > 0 {
            depth = length.top + (length.bottom - length.top) * part;
        }
        if part < 1.0 {
            break;
        }
        above += length.volume;
    }
    (depth, share)
}

/// Volumes at which the schedule has rows: even steps, changes of the string, turns of the path. [m³]
fn marks(scene: &Scene, volumes: &Volumes, bit: f64) -> Vec<f64> {
    let whole = volumes.to_bit();
    let mut marks: Vec<f64> = (0..=STEPS).map(|step| whole * f64::from(step) / f64::from(STEPS)).collect();
    let mut below = volumes.surface.volume;
    marks.push(below);
    for length in &volumes.string {
        for pair in scene.fit().well.path.stations().windows(2) {
            let turns = (pair[1].inclination - pair[0].inclination).abs() > TURN;
            for depth in pair.iter().map(|station| station.depth).filter(|depth| turns && *depth < bit) {
                if (length.top..length.bottom).contains(&depth) {
                    marks.push(below + length.capacity * (depth - length.top));
                }
            }
        }
        below += length.volume;
        marks.push(below);
    }
    marks.sort_by(f64::total_cmp);
    marks.dedup_by(|next, kept| *next - *kept < 1e-3 * whole);
    if let Some(last) = marks.last_mut() {
        *last = whole;
    }
    marks
}

/// The schedule of a sheet with a slow rate.
pub(super) fn schedule<R: Recorder>(ground: Ground, slow: &Slow, rec: &mut R) -> Schedule {
    let Ground { scene, order, volumes, kill_weight } = ground;
    let (mud_weight, gravity) = (scene.section().mud.weight, order.constants.gravity);
    let (drill_pipe_pressure, slow_pressure) = (order.readings.drill_pipe_pressure, slow.pressure);
    let bit = scene.vertical_depth(order.hole_depth);
    rec.heading("initial and final circulating pressure");
    let initial_pressure = rec.take(InitialCirculatingPressure { drill_pipe_pressure, slow_pressure });
    let final_pressure = rec.take(FinalCirculatingPressure { slow_pressure, kill_weight, mud_weight });

    let modelled = losses(scene, slow.reading.pump_speed * volumes.pump_output);
    let usable = modelled.as_ref().filter(|losses| losses.inside() > 0.0 && losses.string.len() == volumes.string.len());
    let (by_length, bit_share): (Vec<f64>, f64) = match usable {
        Some(losses) => {
            let all = losses.inside();
            let each = std::iter::once(losses.surface).chain(losses.string.iter().copied()).map(|loss| loss / all);
            (each.collect(), losses.bit / all)
        }
        None => {
            let all: f64 = volumes.string.iter().map(|length| length.length).sum();
            (std::iter::once(0.0).chain(volumes.string.iter().map(|length| length.length / all)).collect(), 0.0)
        }
    };
    let whole = volumes.strokes(volumes.to_bit());
    let row = |volume: f64, depth: f64, friction_share: f64| {
        let vertical_depth = scene.vertical_depth(depth);
        let schedule = SchedulePressure {
            drill_pipe_pressure,
            slow_pressure,
            mud_weight,
            kill_weight,
            depth_share: vertical_depth / bit,
            friction_share,
        };
        let front_depth = vertical_depth;
        let by_weight = SchedulePressureByWeight {
            drill_pipe_pressure,
            slow_pressure,
            mud_weight,
            kill_weight,
            front_depth,
            friction_share,
            gravity,
        };
        let strokes = volumes.strokes(volume);
        let straight = StraightSchedulePressure { initial_pressure, final_pressure, stroke_share: (strokes / whole).min(1.0) };
        let step = Step {
            strokes,
            volume,
            depth,
            vertical_depth,
            friction_share,
            pressure: schedule.value(),
            by_weight: by_weight.value(),
            straight: straight.value(),
        };
        (step, schedule, straight)
    };
    let mut steps: Vec<Step> = Vec::new();
    for volume in marks(scene, volumes, order.hole_depth) {
        let (depth, share) = front(volumes, &by_length, volume);
        // A bit has no bore of its own to fill.
        let depth = if volume < volumes.to_bit() { depth } else { order.hole_depth };
        steps.push(row(volume, depth, share.min(1.0)).0);
    }
    // Behind the nozzles all of the friction is the kill mud's.
    let (through, ..) = row(volumes.to_bit(), order.hole_depth, 1.0);
    steps.push(through);
    if R::ON {
        rec.heading("schedule: first row, the row furthest from the straight line, last row");
        let off = |step: &&Step| (step.straight - step.pressure).abs();
        let furthest = steps.iter().max_by(|a, b| off(a).total_cmp(&off(b)));
        for step in steps.first().into_iter().chain(furthest).chain(steps.last()) {
            let (_, schedule, straight) = row(step.volume, step.depth, step.friction_share);
            rec.take(schedule);
            rec.take(straight);
        }
    }
    Schedule {
        initial_pressure,
        final_pressure,
        steps,
        per_hundred: 100.0 * PressureStep { initial_pressure, final_pressure, strokes: whole }.value(),
        shares: if usable.is_some() { Shares::Model } else { Shares::Depth },
        bit_share,
        model_pressure: usable.map(|losses| losses.inside() + losses.annulus),
        slow_pressure,
    }
}
