//! Laws of the path, and a printed survey interval.

use super::*;
use crate::trajectory::{DoglegSeverity, EastStep, NorthStep};
use crate::{Formula, Off, Working};

const FOOT: f64 = 0.3048;

fn path(stations: &[(f64, f64, f64)], unit: f64) -> Path {
    let stations: Vec<_> = stations.iter().map(|(d, i, a)| (d * unit, i.to_radians(), a.to_radians())).collect();
    Path::from_stations(&stations).unwrap()
}

fn near(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance, "{a} is not {b} within {tolerance}");
}

/// A hole that builds, turns, drops and turns upward at the end.
fn winding() -> Path {
    path(
        &[
            (0.0, 0.0, 0.0),
            (600.0, 0.0, 0.0),
            (900.0, 20.0, 340.0),
            (1300.0, 55.0, 25.0),
            (1800.0, 30.0, 60.0),
            (2300.0, 96.0, 70.0),
        ],
        1.0,
    )
}

/// drillingformulas.com, Minimum Curvature Method: 3500 ft 15/20 to 3600 ft 25/45.
#[test]
fn published_minimum_curvature_pair() {
    let path = path(&[(3500.0, 15.0, 20.0), (3600.0, 25.0, 45.0)], FOOT);
    let [_, first, last] = path.stations() else { panic!("surface and two stations") };
    near((last.north - first.north) / FOOT, 27.22, 0.005);
    near((last.east - first.east) / FOOT, 19.45, 0.005);
    near((last.vertical_depth - first.vertical_depth) / FOOT, 94.01, 0.005);
    near(path.dogleg_severity_at(3550.0 * FOOT) * 100.0 * FOOT, 12.95f64.to_radians(), 0.005f64.to_radians());
}

/// The angle formulas give what the vectors give.
#[test]
fn law_angles_agree_with_vectors() {
    let path = winding();
    for pair in path.stations().windows(2) {
        let (upper, lower) = (pair[0], pair[1]);
        let (upper_inclination, upper_azimuth) = (upper.inclination, upper.azimuth);
        let (lower_inclination, lower_azimuth) = (lower.inclination, lower.azimuth);
        let dogleg = DoglegAngle { upper_inclination, upper_azimuth, lower_inclination, lower_azimuth }.value();
        let ratio_factor = RatioFactor { dogleg }.value();
        let course_length = lower.depth - upper.depth;
        let down = VerticalDepthStep { course_length, upper_inclination, lower_inclination, ratio_factor }.value();
        let north =
            NorthStep { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth, ratio_factor }.value();
        let east =
            EastStep { course_length, upper_inclination, upper_azimuth, lower_inclination, lower_azimuth, ratio_factor }.value();
        near(down, lower.vertical_depth - upper.vertical_depth, 1e-9);
        near(north, lower.north - upper.north, 1e-9);
        near(east, lower.east - upper.east, 1e-9);
        let middle = 0.5 * (upper.depth + lower.depth);
        near(DoglegSeverity { dogleg, course_length }.value(), path.dogleg_severity_at(middle), 1e-12);
    }
    for depth in [0.0, 300.0, 600.0, 725.0, 1000.0, 1300.0, 2000.0, 2299.0, 2500.0] {
        near(path.vertical_depth(depth, &mut Off), path.vertical_depth_at(depth), 1e-9);
        near(path.vertical_depth(depth, &mut Working::default()), path.vertical_depth_at(depth), 1e-9);
    }
}

/// A point put in as a station changes nothing: it lies on the arc.
#[test]
fn law_interpolated_points_lie_on_the_arc() {
    let coarse = winding();
    let fine: Vec<_> = (0..=230)
        .map(|step| coarse.at(f64::from(step) * 10.0))
        .map(|point| (point.depth, point.inclination, point.azimuth))
        .collect();
    let fine = Path::from_stations(&fine).unwrap();
    for step in 0..=1150 {
        let depth = f64::from(step) * 2.0;
        let (a, b) = (coarse.at(depth), fine.at(depth));
        near(a.vertical_depth, b.vertical_depth, 1e-7);
        near(a.north, b.north, 1e-7);
        near(a.east, b.east, 1e-7);
    }
}

/// Tangent is the rate of the position, curvature the rate of the tangent, and its size the dogleg severity.
#[test]
fn law_derivatives() {
    let path = winding();
    let step = 1e-3;
    for depth in [100.0, 700.0, 850.0, 1234.5, 1700.0, 2200.0, 2400.0] {
        let (above, below) = (path.at(depth - step), path.at(depth + step));
        let tangent = path.tangent_at(depth);
        near(tangent[0], (below.north - above.north) / (2.0 * step), 1e-8);
        near(tangent[1], (below.east - above.east) / (2.0 * step), 1e-8);
        near(tangent[2], (below.vertical_depth - above.vertical_depth) / (2.0 * step), 1e-8);
        let curvature = path.curvature_at(depth);
        for (axis, part) in curvature.into_iter().enumerate() {
            near(part, (below.tangent[axis] - above.tangent[axis]) / (2.0 * step), 1e-8);
        }
        let size = curvature.iter().map(|part| part * part).sum::<f64>().sqrt();
        near(size, path.dogleg_severity_at(depth), 1e-12);
        near(tangent.iter().map(|part| part * part).sum::<f64>(), 1.0, 1e-12);
    }
}

#[test]
fn law_depths_invert() {
    let path = winding();
    for step in 1..220 {
        let depth = f64::from(step) * 10.0;
        let back = path.measured_depth_at(path.vertical_depth_at(depth)).unwrap();
        near(back, depth, 1e-6);
    }
    let deepest = (0..2300).map(|depth| path.vertical_depth_at(f64::from(depth))).fold(0.0, f64::max);
    let crossing = path.measured_depth_at(deepest - 0.01).unwrap();
    assert!(crossing < 2300.0 && path.inclination_at(crossing) < PI / 2.0, "the first crossing is on the way down");
    assert_eq!(path.measured_depth_at(deepest + 1.0), None);
    assert_eq!(path.measured_depth_at(f64::NAN), None);
}

/// A quarter circle of radius R goes R down and R sideways.
#[test]
fn law_quarter_circle() {
    let radius = 500.0;
    let path = Path::from_stations(&[(0.0, 0.0, 0.0), (radius * PI / 2.0, PI / 2.0, PI / 2.0)]).unwrap();
    let end = path.at(radius * PI / 2.0);
    near(end.vertical_depth, radius, 1e-9);
    near(end.east, radius, 1e-9);
    near(end.north, 0.0, 1e-9);
    let middle = path.at(radius * PI / 4.0);
    near(middle.vertical_depth, radius * (PI / 4.0).sin(), 1e-9);
    near(middle.inclination, PI / 4.0, 1e-12);
}

#[test]
fn law_vertical_and_straight_ends() {
    let vertical = Path::vertical();
    near(vertical.vertical_depth_at(3000.0), 3000.0, 0.0);
    assert_eq!(vertical.measured_depth_at(3000.0), Some(3000.0));
    let tail = path(&[(1000.0, 0.0, 0.0), (1300.0, 30.0, 90.0)], 1.0);
    near(tail.vertical_depth_at(500.0), 500.0, 0.0);
    let (end, beyond) = (tail.at(1300.0), tail.at(1400.0));
    near(beyond.vertical_depth - end.vertical_depth, 100.0 * 30f64.to_radians().cos(), 1e-9);
    near(beyond.east - end.east, 50.0, 1e-9);
    near(beyond.azimuth, 90f64.to_radians(), 1e-12);
}

/// The azimuth listed at a vertical station is data and stays.
#[test]
fn law_listed_azimuth_stays() {
    let path = path(&[(0.0, 0.0, 40.0), (500.0, 0.0, 40.0), (800.0, 15.0, 200.0)], 1.0);
    near(path.at(250.0).azimuth, 40f64.to_radians(), 0.0);
    near(path.at(600.0).azimuth, 200f64.to_radians(), 1e-9);
}

#[test]
fn rejects_impossible_stations() {
    assert_eq!(Path::from_stations(&[]).unwrap_err(), PathError::NoStations);
    let error = |stations: &[(f64, f64, f64)]| Path::from_stations(stations).unwrap_err();
    assert_eq!(error(&[(0.0, 0.0, 0.0), (0.0, 0.1, 0.0)]), PathError::Depth { station: 2 });
    assert_eq!(error(&[(-1.0, 0.0, 0.0)]), PathError::Depth { station: 1 });
    assert_eq!(error(&[(0.0, 0.0, 0.0), (10.0, -0.1, 0.0)]), PathError::Inclination { station: 2 });
    assert_eq!(error(&[(0.0, f64::NAN, 0.0)]), PathError::NotFinite { station: 1 });
    let PathError::Dogleg { station: 2, angle } = error(&[(0.0, 0.0, 0.0), (10.0, 2.5, 0.0)]) else { panic!("a dogleg") };
    near(angle, 2.5, 1e-12);
    assert_eq!(
        error(&[(0.0, 0.0, 0.0), (10.0, 2.5, 0.0)]).to_string(),
        "the hole turns by 143 degrees before station 2, more than one arc can tell"
    );
}
