//! The path as a chain of circular arcs between survey stations.

use super::{DoglegAngle, LARGEST_DOGLEG, RatioFactor, VerticalDepthStep};
use crate::{Kind, Recorder, numerics};
use std::f64::consts::PI;

/// Doglegs below this are straight hole: over a whole kilometre the path moves less than a micrometre. [rad]
const STRAIGHT: f64 = 1e-9;

/// A vector north, east, down.
type Vector = [f64; 3];

/// A point of the path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Measured depth. [m]
    pub depth: f64,
    /// Inclination from the vertical. [rad]
    pub inclination: f64,
    /// Azimuth clockwise from north, as listed where the station was surveyed. [rad]
    pub azimuth: f64,
    /// Vertical depth. [m]
    pub vertical_depth: f64,
    /// Way to the north from the surface location. [m]
    pub north: f64,
    /// Way to the east from the surface location. [m]
    pub east: f64,
    /// Unit vector along the hole, downwards: north, east, down.
    pub tangent: [f64; 3],
}

/// Why stations make no path. Stations are counted from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PathError {
    /// There is no station.
    NoStations,
    /// A value is not a finite number.
    NotFinite {
        /// Number of the station.
        station: usize,
    },
    /// The measured depth is negative, or not below the station before.
    Depth {
        /// Number of the station.
        station: usize,
    },
    /// The inclination is not between 0 and 180 degrees.
    Inclination {
        /// Number of the station.
        station: usize,
    },
    /// The hole turns by more than [`LARGEST_DOGLEG`] since the station before.
    Dogleg {
        /// Number of the lower station.
        station: usize,
        /// Dogleg angle. [rad]
        angle: f64,
    },
}

impl std::fmt::Display for PathError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PathError::NoStations => write!(f, "the survey has no station"),
            PathError::NotFinite { station } => write!(f, "station {station} holds something that is not a number"),
            PathError::Depth { station } => write!(f, "station {station} does not lie below the one before it"),
            PathError::Inclination { station } => {
                write!(f, "the inclination of station {station} is not between 0 and 180 degrees")
            }
            PathError::Dogleg { station, angle } => {
                write!(
                    f,
                    "the hole turns by {:.0} degrees before station {station}, more than one arc can tell",
                    angle.to_degrees()
                )
            }
        }
    }
}

impl std::error::Error for PathError {}

/// The arc from one station to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Leg {
    /// Direction at the upper end. Differs from the upper station's only in the lead-in from surface.
    start: Vector,
    /// Unit vector across it, in the plane of the arc, to the side that the hole turns to; nought for a straight leg.
    across: Vector,
    /// Angle between the directions at both ends; nought for a straight leg. [rad]
    dogleg: f64,
    /// Measured depth between them. [m]
    length: f64,
}

impl Leg {
    fn new(start: Vector, end: Vector, length: f64) -> Leg {
        let dogleg = angle_between(start, end);
        if dogleg < STRAIGHT {
            return Leg { start, across: [0.0; 3], dogleg: 0.0, length };
        }
        let (sine, cosine) = dogleg.sin_cos();
        Leg { start, across: std::array::from_fn(|axis| (end[axis] - start[axis] * cosine) / sine), dogleg, length }
    }

    /// Direction after an angle of the arc. [rad]
    fn turned(&self, angle: f64) -> Vector {
        let (sine, cosine) = angle.sin_cos();
        std::array::from_fn(|axis| cosine * self.start[axis] + sine * self.across[axis])
    }

    fn tangent(&self, at: f64) -> Vector {
        self.turned(at * self.dogleg)
    }

    /// Way along one axis down to the share `at` of the length: the chord of the arc, along the direction half-way.
    fn advance(&self, at: f64, axis: usize) -> f64 {
        let (length, half) = (at * self.length, 0.5 * at * self.dogleg);
        if half == 0.0 {
            return length * self.start[axis];
        }
        let (sine, cosine) = half.sin_cos();
        length * (sine / half) * (cosine * self.start[axis] + sine * self.across[axis])
    }

    /// Change of direction per length: a vector across the hole.
    fn curvature(&self, at: f64) -> Vector {
        let per_length = self.dogleg / self.length;
        let (sine, cosine) = (at * self.dogleg).sin_cos();
        std::array::from_fn(|axis| per_length * (cosine * self.across[axis] - sine * self.start[axis]))
    }

    /// Share of the length where the hole is horizontal, when the leg turns upward.
    fn deepest(&self) -> Option<f64> {
        if self.start[DOWN] <= 0.0 || self.tangent(1.0)[DOWN] >= 0.0 {
            return None;
        }
        numerics::root(|at| self.tangent(at)[DOWN], 0.0, 1.0)
    }
}

const DOWN: usize = 2;

/// The path of the hole by minimum curvature: arcs between stations, vertical from surface to the first
/// station, straight beyond the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    stations: Vec<Station>,
    /// One fewer than stations.
    legs: Vec<Leg>,
}

impl Path {
    /// A vertical hole of any depth.
    pub fn vertical() -> Path {
        Path { stations: vec![surface()], legs: Vec::new() }
    }

    /// From survey stations: measured depth, inclination, azimuth. [m, rad, rad]
    ///
    /// # Errors
    /// When the depths do not grow, an inclination is impossible, or two stations are more than
    /// [`LARGEST_DOGLEG`] apart in direction.
    pub fn from_stations(stations: &[(f64, f64, f64)]) -> Result<Path, PathError> {
        let Some(&(first, ..)) = stations.first() else { return Err(PathError::NoStations) };
        let mut path = Path { stations: Vec::with_capacity(stations.len() + 1), legs: Vec::with_capacity(stations.len()) };
        if first > 0.0 {
            path.stations.push(surface());
        }
        for (index, &(depth, inclination, azimuth)) in stations.iter().enumerate() {
            let station = index + 1;
            if !(depth.is_finite() && inclination.is_finite() && azimuth.is_finite()) {
                return Err(PathError::NotFinite { station });
            }
            if !(0.0..=PI).contains(&inclination) {
                return Err(PathError::Inclination { station });
            }
            let tangent = direction(inclination, azimuth);
            let mut point = Station { depth, inclination, azimuth, tangent, ..surface() };
            match path.stations.last() {
                None if depth < 0.0 => return Err(PathError::Depth { station }),
                None => {}
                Some(above) if depth <= above.depth => return Err(PathError::Depth { station }),
                Some(above) => {
                    // The lead-in from surface to the first survey is vertical, whatever the survey says.
                    let end = if index == 0 { above.tangent } else { tangent };
                    let leg = Leg::new(above.tangent, end, depth - above.depth);
                    if leg.dogleg > LARGEST_DOGLEG {
                        return Err(PathError::Dogleg { station, angle: leg.dogleg });
                    }
                    point.north = above.north + leg.advance(1.0, 0);
                    point.east = above.east + leg.advance(1.0, 1);
                    point.vertical_depth = above.vertical_depth + leg.advance(1.0, DOWN);
                    path.legs.push(leg);
                }
            }
            path.stations.push(point);
        }
        Ok(path)
    }

    /// The stations, surface included.
    pub fn stations(&self) -> &[Station] {
        &self.stations
    }

    /// The station above (or at) a depth and, unless it is the last, the leg below it with the share of its length.
    fn locate(&self, depth: f64) -> (&Station, Option<(&Leg, f64)>) {
        let index = self.stations.partition_point(|station| station.depth <= depth).saturating_sub(1);
        let station = &self.stations[index];
        (station, self.legs.get(index).map(|leg| (leg, (depth - station.depth) / leg.length)))
    }

    /// Vertical depth at a measured depth. [m]
    pub fn vertical_depth_at(&self, depth: f64) -> f64 {
        match self.locate(depth) {
            (station, Some((leg, at))) => station.vertical_depth + leg.advance(at, DOWN),
            (station, None) => station.vertical_depth + (depth - station.depth) * station.tangent[DOWN],
        }
    }

    /// Vertical depth at a measured depth, with its working: the step from the station above. [m]
    pub fn vertical_depth<R: Recorder>(&self, depth: f64, rec: &mut R) -> f64 {
        let above = *self.locate(depth).0;
        let here = self.at(depth);
        let (lower_inclination, lower_azimuth) = (here.inclination, here.azimuth);
        let (upper_inclination, upper_azimuth) = (above.inclination, above.azimuth);
        let dogleg = rec.take(DoglegAngle { upper_inclination, upper_azimuth, lower_inclination, lower_azimuth });
        let ratio_factor = rec.take(RatioFactor { dogleg });
        let course_length = depth - above.depth;
        rec.given("vertical depth of the station above", above.vertical_depth, Kind::Depth);
        above.vertical_depth + rec.take(VerticalDepthStep { course_length, upper_inclination, lower_inclination, ratio_factor })
    }

    /// Unit vector along the hole, downwards: north, east, down.
    pub fn tangent_at(&self, depth: f64) -> [f64; 3] {
        match self.locate(depth) {
            (_, Some((leg, at))) => leg.tangent(at),
            (station, None) => station.tangent,
        }
    }

    /// Inclination from the vertical. [rad]
    pub fn inclination_at(&self, depth: f64) -> f64 {
        inclination_of(self.tangent_at(depth))
    }

    /// Change of direction per length: a vector across the hole, north, east, down. [rad/m]
    pub fn curvature_at(&self, depth: f64) -> [f64; 3] {
        match self.locate(depth) {
            (_, Some((leg, at))) => leg.curvature(at),
            _ => [0.0; 3],
        }
    }

    /// Dogleg severity. [rad/m]
    pub fn dogleg_severity_at(&self, depth: f64) -> f64 {
        self.locate(depth).1.map_or(0.0, |(leg, _)| leg.dogleg / leg.length)
    }

    /// The whole point at a measured depth.
    pub fn at(&self, depth: f64) -> Station {
        let (above, leg) = self.locate(depth);
        let below = depth - above.depth;
        let (tangent, [north, east, down]) = match leg {
            Some((leg, at)) => (leg.tangent(at), std::array::from_fn(|axis| leg.advance(at, axis))),
            None => (above.tangent, above.tangent.map(|part| below * part)),
        };
        // A vertical hole has no azimuth of its own: keep the listed one.
        let level = tangent[0].hypot(tangent[1]);
        let azimuth = if below > 0.0 && level > 1e-9 { tangent[1].atan2(tangent[0]).rem_euclid(2.0 * PI) } else { above.azimuth };
        Station {
            depth,
            inclination: if below > 0.0 { inclination_of(tangent) } else { above.inclination },
            azimuth,
            vertical_depth: above.vertical_depth + down,
            north: above.north + north,
            east: above.east + east,
            tangent,
        }
    }

    /// Measured depth where the hole first reaches a vertical depth; `None` when it never does. [m]
    pub fn measured_depth_at(&self, vertical_depth: f64) -> Option<f64> {
        if !vertical_depth.is_finite() {
            return None;
        }
        if vertical_depth <= 0.0 {
            return Some(vertical_depth);
        }
        for ((leg, above), below) in self.legs.iter().zip(&self.stations).zip(&self.stations[1..]) {
            let short = |at: f64| above.vertical_depth + leg.advance(at, DOWN) - vertical_depth;
            let turn = leg.deepest().filter(|&at| short(at) >= 0.0);
            if turn.is_none() && below.vertical_depth < vertical_depth {
                continue;
            }
            let at = numerics::root(short, 0.0, turn.unwrap_or(1.0)).unwrap_or(1.0);
            return Some(above.depth + at * leg.length);
        }
        let last = self.stations.last()?;
        (last.tangent[DOWN] > 1e-12).then(|| last.depth + (vertical_depth - last.vertical_depth) / last.tangent[DOWN])
    }
}

fn surface() -> Station {
    Station { depth: 0.0, inclination: 0.0, azimuth: 0.0, vertical_depth: 0.0, north: 0.0, east: 0.0, tangent: [0.0, 0.0, 1.0] }
}

fn direction(inclination: f64, azimuth: f64) -> Vector {
    let (sine, cosine) = inclination.sin_cos();
    [sine * azimuth.cos(), sine * azimuth.sin(), cosine]
}

fn inclination_of(tangent: Vector) -> f64 {
    tangent[0].hypot(tangent[1]).atan2(tangent[DOWN])
}

/// Angle between unit vectors by their difference: exact for small angles, where the arc cosine is not.
fn angle_between(a: Vector, b: Vector) -> f64 {
    let square: f64 = a.iter().zip(b).map(|(x, y)| (y - x) * (y - x)).sum();
    2.0 * (0.5 * square.sqrt()).min(1.0).asin()
}

#[cfg(test)]
mod tests;
