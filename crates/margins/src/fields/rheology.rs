//! The mud's flow curve at its own temperature, from viscometer readings at more than one.
//!
//! Between two temperatures the dial readings are interpolated, their logarithms straight with the temperature, and a curve is drawn
//! through them; losses then run straight between such nodes. Beyond the readings the nearest ones are taken, and the working says so.

use crate::fields::flow::flow_curve;
use rigwright_physics::Off;
use rigwright_physics::circulating::viscometer::{MudRheology, Reading};
use rigwright_well::{Mud, Rheogram};

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
