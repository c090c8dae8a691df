//! What the open hole of a section holds and bears, at the depths where it can be weakest.

use crate::{Scene, geometry};
use rigwright_physics::Formula;
use rigwright_physics::STANDARD_GRAVITY;
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_well::{Fit, Formation};

/// Depths closer than this are one. [m]
const SAME: f64 = 1e-6;

/// A depth of open hole with the pressures of the rock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Measured depth. [m]
    pub depth: f64,
    /// Vertical depth. [m]
    pub vertical_depth: f64,
    /// Pore pressure. [Pa]
    pub pore: f64,
    /// Pressure that opens the rock. [Pa]
    pub fracture: Option<f64>,
    /// Whether the fracture pressure is the shoe test.
    pub tested: bool,
    /// Pressure below which the wall caves in. [Pa]
    pub collapse: Option<f64>,
}

impl Point {
    /// The pressure that the mud must not fall below: the larger of pore and collapse. [Pa]
    pub fn floor(&self) -> f64 {
        self.collapse.map_or(self.pore, |collapse| collapse.max(self.pore))
    }
}

/// The open hole of a section: shoe, both sides of every layer top, survey stations and the end, from the top down.
///
/// Between these depths mud and rock pressures run straight, so that no depth between them is weaker, as an
/// equivalent mud weight, than both its neighbours.
pub struct OpenHole {
    points: Vec<Point>,
}

impl OpenHole {
    /// Of a section of a fit.
    pub fn new(fit: &Fit, section: usize) -> OpenHole {
        let well = &fit.well;
        let (top, bottom) = (geometry::open_from(fit, section), well.sections[section].bottom);
        let mut points = Vec::new();
        let mut depths: Vec<f64> = well.path.stations().iter().map(|station| station.depth).collect();
        depths.extend([top, bottom]);
        for depth in depths.into_iter().filter(|depth| (top..=bottom).contains(depth)) {
            points.extend(point(fit, depth));
        }
        // A layer top is a double point: what ends there and what begins.
        for pair in well.formations.windows(2) {
            let Some(depth) = well.path.measured_depth_at(pair[1].top).filter(|depth| (top..=bottom).contains(depth)) else {
                continue;
            };
            points.extend(pair.iter().map(|layer| in_layer(layer, depth, pair[1].top)));
        }
        points.extend(shoe_test(fit, section));
        // At its very top, on the ground or the sea bed, a mud weight says nothing.
        let start = fit.open_to_sea(section).unwrap_or(0.0);
        points.retain(|point: &Point| point.vertical_depth > start + SAME);
        points.sort_by(|a, b| a.depth.total_cmp(&b.depth));
        OpenHole { points }
    }

    /// Every prepared depth.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The prepared depths down to the depth of the hole.
    pub fn above(&self, hole_depth: f64) -> &[Point] {
        &self.points[..self.points.partition_point(|point| point.depth <= hole_depth + SAME)]
    }
}

/// The open hole of a scene at one measured depth: what ends and what begins there, the shoe test among it. Empty where
/// the hole is cased or not drilled.
pub fn only(scene: &Scene, depth: f64) -> Vec<Point> {
    /// Depths that somebody typed may be rounded. [m]
    const NEAR: f64 = 1e-3;
    let (fit, situation) = (scene.fit(), &scene.situation);
    let prepared = scene.prepared_flow().open_hole.above(situation.hole_depth).iter();
    let mut points: Vec<Point> = prepared.filter(|point| (point.depth - depth).abs() < NEAR).copied().collect();
    if (geometry::open_from(fit, situation.section)..=situation.hole_depth).contains(&depth) {
        points.extend(point(fit, depth));
    }
    points
}

/// The rock at a measured depth.
pub fn point(fit: &Fit, depth: f64) -> Option<Point> {
    let vertical_depth = fit.well.path.vertical_depth_at(depth);
    (vertical_depth > SAME).then(|| in_layer(fit.well.formation_at(vertical_depth), depth, vertical_depth))
}

fn in_layer(layer: &Formation, depth: f64, vertical_depth: f64) -> Point {
    Point {
        depth,
        vertical_depth,
        pore: layer.pore_at(vertical_depth),
        fracture: layer.fracture_at(vertical_depth),
        tested: false,
        collapse: layer.collapse_at(vertical_depth),
    }
}

/// The test of the shoe above the section, as a depth of its own beside the table of formations.
fn shoe_test(fit: &Fit, section: usize) -> Option<Point> {
    let casing = fit.well.casing_above(section)?;
    let test = casing.leak_off?;
    let rock = point(fit, casing.shoe)?;
    let column = Hydrostatic { density: test.weight, vertical_depth: rock.vertical_depth, gravity: STANDARD_GRAVITY };
    Some(Point { fracture: Some(column.value()), tested: true, ..rock })
}
