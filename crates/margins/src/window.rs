//! The mud window along the open hole of a section at its end, for figures: rock and mud as mud weights at each depth.
//!
//! Judgements are made by the questions `circulating/overbalance` and `circulating/fracture`; this is the same field at
//! more depths.

use crate::fields::open_hole::{Point, point};
use crate::{Basis, Scene, geometry, sweep};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::{Formula, Off};
use rigwright_well::{Fit, Operation};

/// Depths closer than this have no depth between them. [m]
const STEP: f64 = 30.0;

/// One depth of open hole. Pressures stand as equivalent mud weights from the datum. [kg/m³]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindowRow {
    /// Measured depth. [m]
    pub depth: f64,
    /// Vertical depth. [m]
    pub vertical_depth: f64,
    /// Pore pressure. [kg/m³]
    pub pore: f64,
    /// Pressure below which the wall caves in. [kg/m³]
    pub collapse: Option<f64>,
    /// Pressure that opens the rock. [kg/m³]
    pub fracture: Option<f64>,
    /// Mud with pumps off. [kg/m³]
    pub still: Option<f64>,
    /// Mud while drilling, with cuttings. [kg/m³]
    pub flowing: Option<f64>,
    /// Mud while pulling out from bottom. [kg/m³]
    pub pulling: Option<f64>,
    /// Mud while running in to bottom. [kg/m³]
    pub running: Option<f64>,
}

/// The window of a section with the bit on bottom at its end, from the shoe down; a layer top stands twice. The mud is
/// `None` where its losses cannot be computed.
pub fn window(fit: &Fit, section: usize) -> Vec<WindowRow> {
    let Some(bottom) = fit.well.sections.get(section).map(|section| section.bottom) else { return Vec::new() };
    let basis = Basis::new(fit);
    let scene = |operation| Scene::new(&basis, sweep::situation(fit, section, operation, bottom, bottom));
    let (still, flowing) = (scene(Operation::Connection), scene(Operation::Drilling));
    let (pulling, running) = (scene(Operation::PullingOut), scene(Operation::RunningIn));
    let row = |at: &Point| WindowRow {
        depth: at.depth,
        vertical_depth: at.vertical_depth,
        pore: weight(&still, at.pore, at),
        collapse: at.collapse.map(|collapse| weight(&still, collapse, at)),
        fracture: at.fracture.map(|fracture| weight(&still, fracture, at)),
        still: mud(&still, at),
        flowing: mud(&flowing, at),
        pulling: mud(&pulling, at),
        running: mud(&running, at),
    };
    points(fit, &basis, section, bottom).iter().map(row).collect()
}

/// The depths at which rock changes, and depths between them.
fn points(fit: &Fit, basis: &Basis, section: usize, bottom: f64) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    // At surface a mud weight says nothing; the first depth is one step below.
    let mut last = geometry::open_from(fit, section);
    for next in basis.flow.section(fit, section).open_hole.above(bottom).iter().filter(|point| !point.tested) {
        let steps = ((next.depth - last) / STEP).ceil() as usize;
        let between = (1..steps).map(|step| last + (next.depth - last) * step as f64 / steps as f64);
        points.extend(between.filter_map(|depth| point(fit, depth)));
        points.push(*next);
        last = next.depth;
    }
    points
}

fn mud(scene: &Scene, at: &Point) -> Option<f64> {
    let flow = scene.flow(&mut Off);
    (!flow.pieces.is_empty()).then(|| weight(scene, flow.pressure_at(at.depth, at.vertical_depth), at))
}

fn weight(scene: &Scene, pressure: f64, at: &Point) -> f64 {
    EquivalentMudWeight { pressure, vertical_depth: at.vertical_depth, gravity: scene.gravity() }.value()
}
