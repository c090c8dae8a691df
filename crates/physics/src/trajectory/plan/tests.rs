//! Plans against the path through their stations.

use super::*;
use crate::trajectory::Path;
use crate::{Line, Off, Working};

const RATE: f64 = 2.0 / 180.0 * PI / 30.48;

fn reaches(plan: &Plan, target: &Target) {
    let path = Path::from_stations(&plan.stations).unwrap();
    let end = path.at(plan.measured_depth());
    assert!((end.vertical_depth - target.vertical_depth).abs() < 1e-6, "{} {}", end.vertical_depth, target.vertical_depth);
    let (north, east) = (end.north, end.east);
    assert!((ClosureDistance { north, east }.value() - target.departure).abs() < 1e-6);
    assert!((VerticalSection { north, east, section_azimuth: target.azimuth }.value() - target.departure).abs() < 1e-6);
    let direction = ClosureDirection { north, east }.value();
    assert!((direction - target.azimuth).abs() < 1e-9, "{direction}");
}

/// The path through the stations of a plan ends in its target, and bends at the rates that were asked.
#[test]
fn law_plans_reach_their_targets() {
    for kick_off in [0.0, 300.0, 1200.0] {
        for (vertical_depth, departure) in [(2500.0, 400.0), (3100.0, 1800.0), (2400.0, 1100.0)] {
            let target = Target { kick_off, vertical_depth, departure, azimuth: 4.1 };
            let plan = Plan::build_and_hold(&target, RATE, &mut Off).unwrap();
            reaches(&plan, &target);
            let path = Path::from_stations(&plan.stations).unwrap();
            assert!((path.dogleg_severity_at(kick_off + 1.0) / RATE - 1.0).abs() < 1e-9);
            for inclination in [0.0, 0.2] {
                let second = SecondBend { rate: 0.75 * RATE, inclination, drops: true };
                if let Ok(plan) = Plan::with_second_bend(&target, RATE, &second, &mut Off) {
                    reaches(&plan, &target);
                    assert!((plan.stations.last().unwrap().1 - inclination).abs() < 1e-12);
                }
            }
        }
    }
    let s = Target { kick_off: 600.0, vertical_depth: 3000.0, departure: 500.0, azimuth: 0.3 };
    let drop = SecondBend { rate: RATE, inclination: 0.0, drops: true };
    reaches(&Plan::with_second_bend(&s, RATE, &drop, &mut Off).unwrap(), &s);
    let landing = Target { kick_off: 900.0, vertical_depth: 2400.0, departure: 1500.0, azimuth: 1.5 };
    for rate in [0.75 * RATE, RATE, 2.0 * RATE] {
        let second = SecondBend { rate, inclination: FRAC_PI_2, drops: false };
        let plan = Plan::with_second_bend(&landing, RATE, &second, &mut Off).unwrap();
        reaches(&plan, &landing);
    }
}

/// The pieces of a bend add up as the equations of the plan say, and the long way round the tables gives the same angle.
#[test]
fn law_hold_solves_the_two_equations() {
    for (vertical_way, horizontal_way, net_radius) in [(1800.0, 700.0, 873.0), (1500.0, 1200.0, 500.0), (2000.0, 300.0, 1700.0)] {
        let hold_length = HoldLength { vertical_way, horizontal_way, net_radius }.value();
        let lower_inclination = HoldInclination { horizontal_way, vertical_way, hold_length }.value();
        let down = BendVerticalDepth { bend_radius: net_radius, upper_inclination: 0.0, lower_inclination }.value();
        let across = BendDeparture { bend_radius: net_radius, upper_inclination: 0.0, lower_inclination }.value();
        assert!((down + hold_length * lower_inclination.cos() - vertical_way).abs() < 1e-9);
        assert!((across + hold_length * lower_inclination.sin() - horizontal_way).abs() < 1e-9);
        // Two arcs: of the line to the centre of the bend, and of the tangent from the target.
        let (to_centre, aside) = ((net_radius - horizontal_way).hypot(vertical_way), net_radius - horizontal_way);
        let long_way = (net_radius / to_centre).asin() - (aside / vertical_way).atan();
        assert!((lower_inclination - long_way).abs() < 1e-12, "{lower_inclination} {long_way}");
    }
}

#[test]
fn law_what_cannot_be_planned_is_refused() {
    let target = Target { kick_off: 900.0, vertical_depth: 1500.0, departure: 500.0, azimuth: 0.0 };
    assert_eq!(Plan::build_and_hold(&target, 0.2 * RATE, &mut Off), Err(PlanError::OutOfReach));
    for bad in [
        Target { vertical_depth: 800.0, ..target },
        Target { departure: 0.0, ..target },
        Target { kick_off: -1.0, ..target },
        Target { azimuth: f64::NAN, ..target },
    ] {
        assert_eq!(Plan::build_and_hold(&bad, RATE, &mut Off), Err(PlanError::Input));
    }
    assert_eq!(Plan::build_and_hold(&target, 0.0, &mut Off), Err(PlanError::Input));
    // To land at 20 degrees so far aside the straight piece would have to be flatter than that.
    let flat = Target { kick_off: 300.0, vertical_depth: 1500.0, departure: 1200.0, azimuth: 0.0 };
    let second = SecondBend { rate: RATE, inclination: 0.35, drops: false };
    let refused = Plan::with_second_bend(&flat, RATE, &second, &mut Off);
    assert!(matches!(refused, Err(PlanError::Inclination { .. })), "{refused:?}");
    assert!(refused.unwrap_err().to_string().contains("second bend"));
}

#[test]
fn law_working_shows_the_hold() {
    let target = Target { kick_off: 500.0, vertical_depth: 3000.0, departure: 800.0, azimuth: 0.0 };
    let mut working = Working::default();
    let plan = Plan::build_and_hold(&target, RATE, &mut working).unwrap();
    let shown = working.lines.iter().find_map(|line| match line {
        Line::Step { record, value, .. } if record.slug == "hold-inclination" => Some(*value),
        _ => None,
    });
    assert_eq!(shown, Some(plan.hold_inclination));
}
