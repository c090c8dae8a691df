//! The hole prepared for marches: everything that depends on the path only, worked out once for all bit depths.

use crate::trajectory::Path;
use std::sync::Arc;

/// How the hole lies at one depth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lie {
    /// Sine of the inclination.
    pub(super) sine: f64,
    /// How fast the cosine of the inclination grows downwards. [1/m]
    pub(super) vertical_curvature: f64,
}

/// A step of a march.
#[derive(Clone, Copy, Debug)]
pub(super) struct Step {
    /// Measured depth of the upper end. [m]
    pub(super) top: f64,
    /// Length along the hole. [m]
    pub(super) length: f64,
    /// Vertical depth gained. [m]
    pub(super) vertical: f64,
    /// Curvature of the hole. [rad/m]
    pub(super) curvature: f64,
    /// At the lower end.
    pub(super) lower: Lie,
    /// Half-way.
    pub(super) middle: Lie,
    /// Which wall it rubs on.
    pub(super) wall: usize,
    /// Diameter of the hole; nought where it is not known. [m]
    pub(super) hole_diameter: f64,
    /// How much the curvature changes at the upper end: nought inside an arc. [rad/m]
    pub(super) bend_change: f64,
}

/// The wall of a stretch of hole, from the end of the one above.
#[derive(Clone, Copy, Debug)]
pub struct Wall {
    /// Measured depth to which it reaches. [m]
    pub bottom: f64,
    /// Friction factor. [-]
    pub friction_factor: f64,
    /// Diameter of the hole; nought where it is not known, and then no pipe winds in it nor pushes by its stiffness. [m]
    pub diameter: f64,
}

/// A piece of one arc of the path: cos α = a cos φ + b sin φ with φ = κ (depth - top).
#[derive(Clone, Copy, Debug)]
pub(super) struct Course {
    pub(super) top: f64,
    pub(super) bottom: f64,
    curvature: f64,
    a: f64,
    b: f64,
    wall: usize,
    hole_diameter: f64,
    bend_change: f64,
    /// The step over the whole course.
    pub(super) whole: Step,
    /// The stride that it is part of, where there is one.
    pub(super) stride: Option<usize>,
}

/// Courses of one arc that turns so little over all of them that a string in tension takes them in one step: [`STRIDE`].
#[derive(Clone, Copy, Debug)]
pub(super) struct Stride {
    /// Its uppermost course.
    pub(super) first: usize,
    /// All of it as one course.
    pub(super) course: Course,
}

/// How much an arc may turn over a stride: drag at the tension half-way is out by some parts in a million then (tested), far less
/// than over a step of a bend. [rad]
const STRIDE: f64 = 0.25 * std::f64::consts::PI / 180.0;

impl Course {
    fn new(path: &Path, top: f64, bottom: f64, (wall, hole_diameter): (usize, f64)) -> Course {
        let curvature = path.dogleg_severity_at(top);
        let (a, down) = (path.tangent_at(top)[2], path.curvature_at(top)[2]);
        let b = if curvature > 0.0 { down / curvature } else { 0.0 };
        let lie = Lie { sine: 0.0, vertical_curvature: 0.0 };
        let bend_change = bend_change(path, top);
        let (length, vertical) = (0.0, 0.0);
        let (lower, middle) = (lie, lie);
        let whole = Step { top, length, vertical, curvature, lower, middle, wall, hole_diameter, bend_change };
        let mut course = Course { top, bottom, curvature, a, b, wall, hole_diameter, bend_change, whole, stride: None };
        course.whole = course.step(top, bottom);
        course
    }

    /// The step over a part of the course.
    pub(super) fn step(&self, top: f64, bottom: f64) -> Step {
        let length = bottom - top;
        let middle = 0.5 * (top + bottom);
        let half = 0.5 * self.curvature * length;
        let (sin_half, cos_half) = half.sin_cos();
        // The chord of an arc is its length times sin h/h, along the direction half-way.
        let chord = if half < 1e-4 { 1.0 - half * half / 6.0 } else { sin_half / half };
        let turned = (self.curvature * (middle - self.top)).sin_cos();
        let (cosine, lie) = self.lie(turned);
        let lower = self.lie((turned.0 * cos_half + turned.1 * sin_half, turned.1 * cos_half - turned.0 * sin_half)).1;
        Step {
            top,
            length,
            vertical: length * chord * cosine,
            curvature: self.curvature,
            lower,
            middle: lie,
            wall: self.wall,
            hole_diameter: self.hole_diameter,
            // Only a step that reaches the upper end of its course meets the next bend.
            bend_change: if top <= self.top { self.bend_change } else { 0.0 },
        }
    }

    /// How the hole lies at a depth, and the cosine of its inclination there, from sine and cosine of what the arc has turned.
    fn lie(&self, (sin, cos): (f64, f64)) -> (f64, Lie) {
        if self.curvature == 0.0 {
            return (self.a, Lie { sine: (1.0 - self.a * self.a).max(0.0).sqrt(), vertical_curvature: 0.0 });
        }
        let cosine = self.a * cos + self.b * sin;
        let sine = (1.0 - cosine * cosine).max(0.0).sqrt();
        (cosine, Lie { sine, vertical_curvature: self.curvature * (self.b * cos - self.a * sin) })
    }
}

/// A hole prepared for marches from any bit depth.
#[derive(Clone, Debug)]
pub struct DragGrid {
    pub(super) courses: Arc<[Course]>,
    pub(super) strides: Arc<[Stride]>,
    fewest_steps: usize,
    /// Friction factor of each wall. [-]
    pub(super) friction_factors: Vec<f64>,
}

impl DragGrid {
    /// Prepares a hole down to `bottom` in steps of at most `step`; survey stations and changes of friction are
    /// always grid depths.
    ///
    /// `friction` lists, from the top down, the depth to which a friction factor reaches; the last one reaches to
    /// the bottom whatever its depth. No friction listed means none.
    pub fn new(path: &Path, bottom: f64, step: f64, friction: &[(f64, f64)]) -> DragGrid {
        let wall =
            |(bottom, friction_factor): &(f64, f64)| Wall { bottom: *bottom, friction_factor: *friction_factor, diameter: 0.0 };
        let walls: Vec<Wall> = friction.iter().map(wall).collect();
        DragGrid::in_hole(path, bottom, step, &walls)
    }

    /// The same for a hole whose diameters are known too.
    pub fn in_hole(path: &Path, bottom: f64, step: f64, walls: &[Wall]) -> DragGrid {
        let mut depths: Vec<f64> = path.stations().iter().map(|station| station.depth).collect();
        depths.extend(walls.iter().map(|wall| wall.bottom));
        depths.extend([0.0, bottom]);
        depths.retain(|depth| (0.0..=bottom).contains(depth));
        depths.sort_by(f64::total_cmp);
        depths.dedup_by(|below, above| *below - *above < 1e-6);
        let step = if step > 0.0 { step } else { f64::INFINITY };
        let (mut courses, mut strides) = (Vec::new(), Vec::new());
        for pair in depths.windows(2) {
            let (top, length) = (pair[0], pair[1] - pair[0]);
            let parts = (length / step).ceil().max(1.0);
            let middle = top + 0.5 * length;
            let wall = wall_at(walls, middle);
            let wall = (wall, walls.get(wall).map_or(0.0, |wall| wall.diameter));
            let edge = |part: usize| if (part as f64) < parts { top + length * part as f64 / parts } else { pair[1] };
            let parts_of_stride = (STRIDE * parts / (length * path.dogleg_severity_at(middle))).min(parts) as usize;
            let parts = parts as usize;
            for first in (0..parts).step_by(parts_of_stride.max(1)) {
                let end = (first + parts_of_stride.max(1)).min(parts);
                let stride = (end > first + 1).then_some(strides.len());
                strides.extend(
                    stride.map(|_| Stride { first: courses.len(), course: Course::new(path, edge(first), edge(end), wall) }),
                );
                let part = |part: usize| Course { stride, ..Course::new(path, edge(part), edge(part + 1), wall) };
                courses.extend((first..end).map(part));
            }
        }
        let fewest_steps = strides.len() + courses.iter().filter(|course: &&Course| course.stride.is_none()).count();
        DragGrid { courses: courses.into(), strides: strides.into(), fewest_steps, friction_factors: Vec::new() }.rubbing(walls)
    }

    /// The same hole with walls of other friction: their ends and diameters are those that it was prepared with.
    #[must_use]
    pub fn rubbing(&self, walls: &[Wall]) -> DragGrid {
        let mut friction_factors: Vec<f64> = walls.iter().map(|wall| wall.friction_factor).collect();
        // The last one reaches to the bottom; without walls nothing rubs.
        let last = friction_factors.last().copied().unwrap_or(0.0);
        friction_factors.resize(walls.len().max(self.friction_factors.len()).max(1), last);
        DragGrid { courses: self.courses.clone(), strides: self.strides.clone(), friction_factors, ..*self }
    }

    /// How many steps a march over the whole hole takes at least, ends of pieces left out.
    pub fn fewest_steps(&self) -> usize {
        self.fewest_steps
    }

    /// Measured depth down to which the hole is prepared. [m]
    pub fn bottom(&self) -> f64 {
        self.courses.last().map_or(0.0, |course| course.bottom)
    }
}

/// Which is the wall at a depth between two ends of walls; the last one reaches to the bottom.
fn wall_at(walls: &[Wall], depth: f64) -> usize {
    walls.iter().position(|wall| wall.bottom > depth).unwrap_or(walls.len().saturating_sub(1))
}

/// How much the curvature changes at a depth: nought inside an arc. [rad/m]
fn bend_change(path: &Path, depth: f64) -> f64 {
    const APART: f64 = 1e-6;
    if depth <= APART {
        return 0.0;
    }
    let (above, below) = (path.curvature_at(depth - APART), path.curvature_at(depth + APART));
    let square: f64 = above.iter().zip(below).map(|(above, below)| (below - above) * (below - above)).sum();
    // An arc turns its own curvature over that little way: that is no change.
    let change = square.sqrt();
    if change < 1e-9 { 0.0 } else { change }
}
