//! A bubble of gas in a shut-in annulus, from the casing gauge down: where it stands, and what every depth feels.

use super::Maker;
use crate::control::ratings::{burst_limits, rated, stack_limit};
use crate::fields::influx::left_for_kick;
use crate::fields::open_hole::{Point, point};
use rigwright_physics::Off;
use rigwright_physics::control::bubble::{Bubble, BubbleState, GasPath};
use rigwright_physics::numerics::root;

/// A bubble under a casing pressure. [SI]
#[derive(Clone, Copy, Debug)]
pub(super) struct Standing {
    /// The bubble.
    pub(super) bubble: Bubble,
    /// Its top pressure and amount of gas.
    pub(super) state: BubbleState,
    /// Pressure at surface.
    pub(super) casing_pressure: f64,
    /// Pressure at the bottom of the hole.
    pub(super) bottom_pressure: f64,
}

/// The annulus with gas and mud of one weight.
#[derive(Clone, Copy)]
pub(super) struct Column<'a> {
    pub(super) path: GasPath<'a>,
    /// Weight of the mud per height. [Pa/m]
    pub(super) gradient: f64,
}

impl Column<'_> {
    /// The bubble of a place and a volume under a casing pressure; `None` where the gas leaves its range.
    pub(super) fn under(&self, below: f64, volume: f64, casing_pressure: f64) -> Option<Standing> {
        let annulus = self.path.annulus;
        let top = casing_pressure + self.gradient * annulus.vertical_depth(below + volume);
        let height = annulus.height(below + volume) - annulus.height(below);
        let bubble = |bottom_pressure| Bubble { below, volume, bottom_pressure };
        // Gas weighs something and less than the mud.
        let off = |pressure: f64| self.path.state(bubble(pressure)).map_or(f64::NAN, |state| state.top_pressure - top);
        let pressure = if height > 0.0 { root(off, top, top + self.gradient * height)? } else { top };
        let bubble = bubble(pressure);
        let state = self.path.state(bubble)?;
        let bottom_pressure = pressure + self.gradient * annulus.height(below);
        Some(Standing { bubble, state, casing_pressure, bottom_pressure })
    }

    /// Where the same gas stands when it fills another volume or the casing pressure is another; `None` once it is at surface.
    pub(super) fn moved(&self, amount: f64, volume: f64, casing_pressure: f64) -> Option<Standing> {
        let highest = self.path.annulus.volume() - volume;
        let off = |below: f64| self.under(below, volume, casing_pressure).map_or(f64::NAN, |there| there.state.amount - amount);
        if highest <= 0.0 || off(highest) > 0.0 {
            return None;
        }
        if off(0.0) <= 0.0 {
            return self.under(0.0, volume, casing_pressure);
        }
        self.under(root(off, 0.0, highest)?, volume, casing_pressure)
    }

    /// Pressure at a vertical depth. [Pa]
    pub(super) fn pressure(&self, there: &Standing, vertical_depth: f64) -> Option<f64> {
        let annulus = self.path.annulus;
        let Bubble { below, volume, .. } = there.bubble;
        let (top, low) = (annulus.vertical_depth(below + volume), annulus.vertical_depth(below));
        if vertical_depth <= top {
            return Some(there.casing_pressure + self.gradient * vertical_depth);
        }
        if vertical_depth >= low {
            return Some(there.bottom_pressure - self.gradient * (annulus.bottom() - vertical_depth));
        }
        self.path.pressure_within(there.bubble, annulus.volume_below(vertical_depth))
    }

    /// Volume of annulus per vertical height at a place. [m³/m]
    pub(super) fn capacity(&self, place: f64) -> f64 {
        let annulus = self.path.annulus;
        let piece = (annulus.volume() * 1e-6).max(1e-9);
        let low = place.min(annulus.volume() - piece).max(0.0);
        let height = annulus.height(low + piece) - annulus.height(low);
        if height > 0.0 { piece / height } else { f64::INFINITY }
    }
}

/// What the well bears at surface and in the open hole. `None`: nobody knows.
pub(super) struct Bears {
    /// Name and pressure at surface. [Pa]
    pub(super) surface: Vec<(&'static str, Option<f64>)>,
    /// Depths of open hole.
    pub(super) rock: Vec<Point>,
}

impl Bears {
    pub(super) fn new(maker: &Maker) -> Bears {
        let scene = maker.scene;
        let fit = scene.fit();
        let burst = burst_limits(scene, maker.mud_weight(), &mut Off).ok();
        let burst = burst.and_then(|limits| limits.iter().map(|(limit, _)| limit.capacity).reduce(f64::min));
        let surface = vec![
            ("preventers", stack_limit(fit).map(|limit| limit.capacity)),
            ("wellhead", fit.rig.wellhead_rating.map(|rating| rated(fit, rating, "wellhead").capacity)),
            ("choke manifold", fit.rig.manifold_rating),
            ("casing", burst),
        ];
        let prepared = scene.prepared_flow().open_hole.above(scene.situation.hole_depth);
        let rock = prepared.iter().copied().chain(point(fit, scene.situation.hole_depth));
        let rock = rock.map(|point| left_for_kick(scene, &point)).collect();
        Bears { surface, rock }
    }

    /// The least that equipment and casing bear, with its name. [Pa]
    pub(super) fn least(&self) -> Option<(&'static str, f64)> {
        let known = self.surface.iter().filter_map(|(name, rating)| Some((*name, (*rating)?)));
        known.min_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Names of what nobody knows.
    pub(super) fn unknown(&self) -> Vec<&'static str> {
        let mut unknown: Vec<&'static str> =
            self.surface.iter().filter(|(_, rating)| rating.is_none()).map(|(name, _)| *name).collect();
        if self.rock.iter().any(|point| point.fracture.is_none()) {
            unknown.push("rock");
        }
        unknown
    }

    /// What is left at the depth that is nearest to breaking, with its measured depth; a pressure is asked of each. [Pa, m]
    pub(super) fn left(&self, pressure: impl Fn(&Point) -> Option<f64>) -> Option<(f64, f64)> {
        let left = self.rock.iter().filter_map(|point| Some((point.fracture? - pressure(point)?, point.depth)));
        left.min_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// Says what the limits are, and which of them nobody knows.
    pub(super) fn say(&self, maker: &mut Maker) {
        if let Some((name, least)) = self.least() {
            maker.say(format!("At surface the {name} bears least, with the ratings and the share of burst of the files:"));
            maker.figure("it bears", least, rigwright_physics::Kind::Pressure);
        }
        let unknown = self.unknown();
        if !unknown.is_empty() {
            maker.warn(format!(
                "Nobody knows what these bear: {}. An unknown limit is not a limit that is kept.",
                unknown.join(", ")
            ));
        }
    }
}
