//! What came in: how tall it stands, and what it may be.

use super::{Ground, Remark, Volumes};
use rigwright_physics::control::influx::{InfluxDensity, MigrationFromWeight};
use rigwright_physics::{Formula, Kind, Recorder};

/// A gain that nobody stated an error for is taken to be off by this share either way: common practice for pit totals.
const GAIN_ERROR: f64 = 0.1;
const PPG: f64 = 0.453_592_37 / (231.0 * 0.0254 * 0.0254 * 0.0254);

/// Kinds of influx, by density.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InfluxKind {
    /// Gas: 1 to 3 ppg.
    Gas,
    /// Oil or a mixture: 4 to 6 ppg.
    Oil,
    /// Salt water: 7 to 9 ppg.
    Water,
}

impl InfluxKind {
    /// In plain words.
    pub const fn word(self) -> &'static str {
        match self {
            InfluxKind::Gas => "gas",
            InfluxKind::Oil => "oil or a mixture",
            InfluxKind::Water => "salt water",
        }
    }

    /// Bounds half-way between the ranges of the trade (from memory: Lapeyrouse, ch. 4). [kg/m³]
    const ALL: [(InfluxKind, f64, f64); 3] = [
        (InfluxKind::Gas, f64::NEG_INFINITY, 3.5 * PPG),
        (InfluxKind::Oil, 3.5 * PPG, 6.5 * PPG),
        (InfluxKind::Water, 6.5 * PPG, f64::INFINITY),
    ];
}

/// An influx at the bottom.
#[derive(Clone, Debug, PartialEq)]
pub struct Influx {
    /// Its volume: the pit gain. [m³]
    pub volume: f64,
    /// How far off that may be. [m³]
    pub error: f64,
    /// Whether the reader stated it.
    pub error_stated: bool,
    /// Length along the hole. [m]
    pub length: f64,
    /// Vertical height. [m]
    pub height: f64,
    /// Its density; `None` without a gain or height. [kg/m³]
    pub density: Option<f64>,
    /// The interval that the error of the gain leaves. [kg/m³]
    pub interval: Option<[f64; 2]>,
    /// What it may be.
    pub kinds: Vec<InfluxKind>,
    /// Speed of migration by mud weight alone, a screening figure. [m/s]
    pub migration: f64,
}

/// Length along the hole that a volume fills from the bottom up. [m]
fn length_of(volumes: &Volumes, volume: f64) -> f64 {
    let (mut left, mut along) = (volume, 0.0);
    for length in &volumes.annulus {
        let part = (left / length.volume).clamp(0.0, 1.0);
        along += length.length * part;
        left -= length.volume * part;
    }
    along
}

/// The influx that the readings tell.
pub(super) fn influx<R: Recorder>(ground: Ground, rec: &mut R) -> Influx {
    let Ground { scene, order, volumes, .. } = ground;
    let readings = &order.readings;
    let (mud_weight, gravity) = (scene.section().mud.weight, order.constants.gravity);
    let vertical = |volume: f64| {
        let top = order.hole_depth - length_of(volumes, volume);
        scene.vertical_depth(order.hole_depth) - scene.vertical_depth(top)
    };
    let told = |volume: f64| {
        let height = vertical(volume);
        (height > 0.0).then_some(InfluxDensity {
            mud_weight,
            casing_pressure: readings.casing_pressure,
            drill_pipe_pressure: readings.drill_pipe_pressure,
            height,
            gravity,
        })
    };
    let volume = readings.gain;
    let error = readings.gain_error.unwrap_or(GAIN_ERROR * volume);
    rec.heading("what came in");
    rec.given("length along the hole that the gain fills", length_of(volumes, volume), Kind::Depth);
    let density = told(volume).map(|formula| rec.take(formula));
    let ends = told((volume - error).max(0.0)).zip(told((volume + error).min(volumes.bit_to_surface())));
    let interval = ends.map(|(small, large)| {
        let (a, b) = (small.value(), large.value());
        [a.min(b), a.max(b)]
    });
    let span = interval.or(density.map(|density| [density, density]));
    // Equal pressures on both sides tell nothing: the influx may lie below the bit.
    let tells = readings.casing_pressure - readings.drill_pipe_pressure > super::readings::GAUGE;
    let kinds = span.filter(|_| tells).map_or_else(Vec::new, |[low, high]| {
        InfluxKind::ALL.iter().filter(|(_, from, to)| high >= *from && low < *to).map(|(kind, ..)| *kind).collect()
    });
    Influx {
        volume,
        error,
        error_stated: readings.gain_error.is_some(),
        length: length_of(volumes, volume),
        height: vertical(volume),
        density,
        interval,
        kinds,
        migration: MigrationFromWeight { mud_weight }.value(),
    }
}

impl Influx {
    pub(super) fn cautions(&self, mud_weight: f64) -> Vec<Remark> {
        let mut cautions = vec![Remark::new(
            "treat every influx as gas until it is at surface; the pressures below are those of gas, whatever the density says",
        )];
        if let Some(density) = self.density.filter(|density| *density < 0.0) {
            cautions.push(
                Remark::new("the readings ask for an influx lighter than nothing: more came in than the pits show, pressure is trapped, or the gas has already risen")
                    .with("density", density, Kind::Density),
            );
        }
        if let Some(density) = self.density.filter(|density| *density >= mud_weight) {
            cautions.push(
                Remark::new("the readings ask for an influx at least as heavy as the mud: they do not tell what came in").with(
                    "density",
                    density,
                    Kind::Density,
                ),
            );
        }
        cautions
    }
}
