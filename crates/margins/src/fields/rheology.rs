//! The mud's flow curve at its own temperature, from viscometer readings at more than one.
//!
//! Between two temperatures the dial readings are interpolated, their logarithms straight with the temperature, and a curve is drawn
//! through them; losses and velocities then run straight between such nodes. Beyond the readings the nearest ones are taken, and the working says so.

use crate::Scene;
use crate::fields::column::Leg;
use crate::fields::flow::flow_curve;
use rigwright_physics::circulating::runs::{LossBetweenTemperatures, VelocityBetweenTemperatures};
use rigwright_physics::circulating::viscometer::{MudRheology, Reading};
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;
use rigwright_well::{Mud, Rheogram, Situation};

/// Nodes between two temperatures at which the viscometer was read.
const BETWEEN: usize = 1;

/// Flow curves by temperature, coldest first; empty when the mud was read at one temperature only. [K]
pub fn by_temperature(mud: &Mud) -> Vec<(f64, MudRheology)> {
    let Some(first) = mud.rheogram.temperature.filter(|_| !mud.other_rheograms.is_empty()) else { return Vec::new() };
    let mut read: Vec<(f64, &Rheogram)> = vec![(first, &mud.rheogram)];
    read.extend(mud.other_rheograms.iter().filter_map(|other| Some((other.temperature?, other))));
    read.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut nodes = Vec::with_capacity(2 * read.len());
    let mut add = |temperature: f64, readings: &[Reading]| {
        nodes.extend(flow_curve(mud.model, readings, &mut Off).map(|curve| (temperature, curve)));
    };
    for pair in read.windows(2) {
        let ((cold, low), (hot, high)) = (pair[0], pair[1]);
        for step in 0..=BETWEEN {
            let share = step as f64 / (BETWEEN + 1) as f64;
            add(cold + (hot - cold) * share, &between(low, high, share));
        }
    }
    if let Some((hottest, last)) = read.last() {
        add(*hottest, &between(last, last, 0.0));
    }
    nodes
}

/// Readings between two sets, at the speeds that both have.
fn between(low: &Rheogram, high: &Rheogram, share: f64) -> Vec<Reading> {
    let both = low.readings.iter().filter_map(|one| Some((one.speed_rpm, one.dial, high.dial(one.speed_rpm)?)));
    both.filter(|(_, low, high)| *low > 0.0 && *high > 0.0)
        .map(|(speed_rpm, low, high)| Reading { speed_rpm, dial: low * (high / low).powf(share) })
        .collect()
}

/// The nodes on both sides of a temperature and how far it is from the lower one; both the same beyond the ends. [K]
pub fn around(temperatures: impl ExactSizeIterator<Item = f64> + Clone, temperature: f64) -> (usize, usize, f64) {
    let below = temperatures.clone().take_while(|node| *node <= temperature).count();
    if below == 0 {
        return (0, 0, 0.0);
    }
    if below == temperatures.len() {
        return (below - 1, below - 1, 0.0);
    }
    let node = |at: usize| temperatures.clone().nth(at).unwrap_or(temperature);
    let (low, high) = (node(below - 1), node(below));
    (below - 1, below, (temperature - low) / (high - low))
}

/// The mud at one place: the flow curves of the nodes on both sides of its temperature, or its one curve twice.
#[derive(Clone, Copy, Debug)]
pub struct MudAt<'a> {
    /// The curve of the lower node, and that of the higher one.
    pub curves: [&'a MudRheology; 2],
    /// Which nodes these are; nought for mud that was read at one temperature.
    pub nodes: [usize; 2],
    /// How far the mud is from the lower node. [-]
    pub share: f64,
    /// Its temperature, and the coldest and the hottest reading, where there is more than one. [K]
    temperatures: Option<[f64; 3]>,
}

impl<'a> MudAt<'a> {
    /// Mud that was read at one temperature.
    pub fn one(mud: &'a MudRheology) -> MudAt<'a> {
        MudAt { curves: [mud, mud], nodes: [0, 0], share: 0.0, temperatures: None }
    }

    /// Mud at a temperature between nodes. [K]
    pub fn between(nodes: &'a [(f64, MudRheology)], temperature: f64) -> Option<MudAt<'a>> {
        let (low, high, share) = around(nodes.iter().map(|node| node.0), temperature);
        let temperatures = Some([temperature, nodes.first()?.0, nodes.last()?.0]);
        Some(MudAt { curves: [&nodes.get(low)?.1, &nodes.get(high)?.1], nodes: [low, high], share, temperatures })
    }

    fn show<R: Recorder>(&self, rec: &mut R) {
        let Some([temperature, coldest, hottest]) = self.temperatures else { return };
        rec.given("temperature of the mud there", temperature, Kind::Temperature);
        if temperature < coldest || temperature > hottest {
            rec.note(|| "caution: outside the temperatures at which the viscometer was read; the nearest is taken".to_owned());
        }
        rec.note(|| "with the mud of the next lower temperature, readings in between interpolated:".to_owned());
    }

    /// A loss per length with this mud. [Pa/m]
    pub fn loss<R: Recorder>(&self, loss: impl Fn(&MudRheology, &mut R) -> f64, rec: &mut R) -> f64 {
        self.show(rec);
        let lower_gradient = loss(self.curves[0], rec);
        if self.share <= 0.0 {
            return lower_gradient;
        }
        rec.note(|| "with the mud of the next higher temperature:".to_owned());
        let higher_gradient = loss(self.curves[1], rec);
        rec.take(LossBetweenTemperatures { lower_gradient, higher_gradient, temperature_share: self.share })
    }

    /// A velocity in this mud; `None` where one of the curves has none. [m/s]
    pub fn velocity<R: Recorder>(&self, velocity: impl Fn(&MudRheology, &mut R) -> Option<f64>, rec: &mut R) -> Option<f64> {
        self.show(rec);
        let lower_velocity = velocity(self.curves[0], rec)?;
        if self.share <= 0.0 {
            return Some(lower_velocity);
        }
        rec.note(|| "with the mud of the next higher temperature:".to_owned());
        let higher_velocity = velocity(self.curves[1], rec)?;
        Some(rec.take(VelocityBetweenTemperatures { lower_velocity, higher_velocity, temperature_share: self.share }))
    }
}

/// The mud in the annulus at a measured depth, in a situation of the scene's section; `None` when its readings make no flow curve. [m]
pub fn mud_at<'a>(scene: &'a Scene, situation: Situation, depth: f64) -> Option<MudAt<'a>> {
    let prepared = scene.prepared_flow();
    let mud = prepared.mud.as_ref()?;
    let heat = prepared.heat.as_ref().filter(|_| prepared.losses.varies());
    let temperature = heat.map(|heat| heat.columns(&situation).temperature(Leg::Annulus, depth));
    let between = temperature.and_then(|temperature| prepared.losses.mud_at(temperature));
    Some(between.unwrap_or_else(|| MudAt::one(mud)))
}
