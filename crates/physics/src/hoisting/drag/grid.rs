//! The hole prepared for marches: everything that depends on the path only, worked out once for all bit depths.

use crate::trajectory::Path;

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
    /// Friction factor. [-]
    pub(super) friction_factor: f64,
}

/// A piece of one arc of the path: cos α = a cos φ + b sin φ with φ = κ (depth - top).
#[derive(Clone, Copy, Debug)]
pub(super) struct Course {
    pub(super) top: f64,
    pub(super) bottom: f64,
    curvature: f64,
    a: f64,
    b: f64,
    friction_factor: f64,
    /// The step over the whole course.
    pub(super) whole: Step,
}

impl Course {
    fn new(path: &Path, top: f64, bottom: f64, friction_factor: f64) -> Course {
        let curvature = path.dogleg_severity_at(top);
        let (a, down) = (path.tangent_at(top)[2], path.curvature_at(top)[2]);
        let b = if curvature > 0.0 { down / curvature } else { 0.0 };
        let lie = Lie { sine: 0.0, vertical_curvature: 0.0 };
        let empty = Step { top, length: 0.0, vertical: 0.0, curvature, lower: lie, middle: lie, friction_factor };
        let mut course = Course { top, bottom, curvature, a, b, friction_factor, whole: empty };
        course.whole = course.step(top, bottom);
        course
    }

    /// The step over a part of the course.
    pub(super) fn step(&self, top: f64, bottom: f64) -> Step {
        let length = bottom - top;
        let middle = 0.5 * (top + bottom);
        let half = 0.5 * self.curvature * length;
        // The chord of an arc is its length times sin h/h, along the direction half-way.
        let chord = if half < 1e-4 { 1.0 - half * half / 6.0 } else { half.sin() / half };
        Step {
            top,
            length,
            vertical: length * chord * self.cosine(middle),
            curvature: self.curvature,
            lower: self.lie(bottom),
            middle: self.lie(middle),
            friction_factor: self.friction_factor,
        }
    }

    fn cosine(&self, depth: f64) -> f64 {
        let (sin, cos) = (self.curvature * (depth - self.top)).sin_cos();
        self.a * cos + self.b * sin
    }

    fn lie(&self, depth: f64) -> Lie {
        let (sin, cos) = (self.curvature * (depth - self.top)).sin_cos();
        let cosine = self.a * cos + self.b * sin;
        let sine = (1.0 - cosine * cosine).max(0.0).sqrt();
        Lie { sine, vertical_curvature: self.curvature * (self.b * cos - self.a * sin) }
    }
}

/// A hole prepared for marches from any bit depth.
#[derive(Clone, Debug)]
pub struct DragGrid {
    pub(super) courses: Vec<Course>,
}

impl DragGrid {
    /// Prepares a hole down to `bottom` in steps of at most `step`; survey stations and changes of friction are
    /// always grid depths.
    ///
    /// `friction` lists, from the top down, the depth to which a friction factor reaches; the last one reaches to
    /// the bottom whatever its depth. No friction listed means none.
    pub fn new(path: &Path, bottom: f64, step: f64, friction: &[(f64, f64)]) -> DragGrid {
        let mut depths: Vec<f64> = path.stations().iter().map(|station| station.depth).collect();
        depths.extend(friction.iter().map(|(depth, _)| *depth));
        depths.extend([0.0, bottom]);
        depths.retain(|depth| (0.0..=bottom).contains(depth));
        depths.sort_by(f64::total_cmp);
        depths.dedup_by(|below, above| *below - *above < 1e-6);
        let step = if step > 0.0 { step } else { f64::INFINITY };
        let mut courses = Vec::new();
        for pair in depths.windows(2) {
            let (top, length) = (pair[0], pair[1] - pair[0]);
            let parts = (length / step).ceil().max(1.0);
            let middle = top + 0.5 * length;
            let factor =
                friction.iter().find(|(depth, _)| *depth > middle).or(friction.last()).map_or(0.0, |(_, factor)| *factor);
            let edge = |part: u32| if f64::from(part) < parts { top + length * f64::from(part) / parts } else { pair[1] };
            courses.extend(
                (0u32..)
                    .take_while(|part| f64::from(*part) < parts)
                    .map(|part| Course::new(path, edge(part), edge(part + 1), factor)),
            );
        }
        DragGrid { courses }
    }

    /// Measured depth down to which the hole is prepared. [m]
    pub fn bottom(&self) -> f64 {
        self.courses.last().map_or(0.0, |course| course.bottom)
    }
}
