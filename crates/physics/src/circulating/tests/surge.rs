//! Laws of surge and swab.

use super::*;
use crate::circulating::bit::BitPressureLoss;
use crate::circulating::losses::{LossMethod, pressure_gradient};
use crate::circulating::moving_wall::MovingWall;
use crate::circulating::rheology::HerschelBulkley;
use crate::circulating::surge::*;
use crate::circulating::trip::*;
use crate::{Formula, Off};

fn string() -> [TripStretch; 2] {
    let stretch = |length: f64, hole: f64, pipe: f64, inner: f64| TripStretch {
        length,
        hole_diameter: hole * INCH,
        pipe_diameter: pipe * INCH,
        inner_diameter: inner * INCH,
    };
    [stretch(2500.0, 8.681, 5.0, 4.276), stretch(200.0, 8.5, 6.75, 2.8125)]
}

fn trip(pipe_speed: f64, end: End) -> Trip {
    Trip { pipe_speed, density: 1300.0, end, pumped: 0.0, method: LossMethod::Exact, clinging: Clinging::MovingWall }
}

const OPEN: End = End::Open { flow_area: 4e-4, discharge_coefficient: 0.95 };

#[test]
fn law_surge_grows_with_speed() {
    for end in [End::Closed, OPEN] {
        let mut before = 0.0;
        for speed in [0.05, 0.2, 0.5, 1.0, 2.0] {
            let now = trip_pressure(&mud(), &string(), &trip(speed, end), &mut Off).pressure;
            assert!(now > before, "{end:?} {speed}: {now} after {before}");
            before = now;
        }
    }
}

#[test]
fn law_an_open_end_never_raises_the_surge() {
    for speed in [0.1, 0.5, 1.5] {
        let closed = trip_pressure(&mud(), &string(), &trip(speed, End::Closed), &mut Off);
        let open = trip_pressure(&mud(), &string(), &trip(speed, OPEN), &mut Off);
        let wide =
            trip_pressure(&mud(), &string(), &trip(speed, End::Open { flow_area: 4e-3, discharge_coefficient: 0.95 }), &mut Off);
        assert!(open.pressure < closed.pressure && wide.pressure <= open.pressure);
        assert!(closed.through_string < f64::MIN_POSITIVE && open.through_string > 0.0);
    }
}

#[test]
fn law_both_ways_lose_the_same_at_the_split() {
    let trip = trip(1.0, OPEN);
    let found = trip_pressure(&mud(), &string(), &trip, &mut Off);
    let End::Open { flow_area, discharge_coefficient } = trip.end else { unreachable!() };
    let bit = BitPressureLoss { density: 1300.0, flow_rate: found.through_string, flow_area, discharge_coefficient }.value();
    let inside: f64 = string()
        .iter()
        .map(|stretch| {
            let passage = Passage::Bore { inner_diameter: stretch.inner_diameter };
            let velocity = passage.velocity(found.through_string, &mut Off);
            let stream = Stream { velocity, density: 1300.0 };
            pressure_gradient(trip.method, &mud(), &passage, stream, &mut Off) * stretch.length
        })
        .sum();
    assert!(close(bit + inside, found.pressure, 1e-8), "{} {}", bit + inside, found.pressure);
}

/// A Newtonian fluid in a narrow annulus: flow between a wall at rest and one that moves is plane Couette and Poiseuille flow
/// together, G = 12 μ (vm + vp/2)/h² with the gap h.
#[test]
fn law_a_narrow_newtonian_surge_is_plane_flow() {
    let (hole, pipe, viscosity, speed) = (0.2, 0.196, 0.05, 0.01);
    let newtonian = MudRheology::of(Rheology::Newtonian { viscosity });
    let stretch = TripStretch { length: 100.0, hole_diameter: hole, pipe_diameter: pipe, inner_diameter: 0.1 };
    let found = trip_pressure(&newtonian, &[stretch], &trip(speed, End::Closed), &mut Off).pressure;
    let h: f64 = (hole - pipe) / 2.0;
    let mean = speed * pipe * pipe / (hole * hole - pipe * pipe);
    let plane = 12.0 * viscosity * (mean + speed / 2.0) / (h * h) * 100.0;
    assert!(close(found, plane, 0.001), "{found} {plane}");
}

#[test]
fn law_the_clinging_constant_tends_to_a_half() {
    let at = |diameter_ratio: f64| ClingingExact { diameter_ratio }.value();
    assert!((at(0.999) - 0.5).abs() < 1e-3);
    let mut ratio = 0.01;
    while ratio < 0.98 {
        assert!(at(ratio + 0.01) > at(ratio) && at(ratio) < 0.5);
        ratio += 0.01;
    }
    for diameter_ratio in [0.3, 0.5, 0.7, 0.9] {
        assert!((at(diameter_ratio) - ClingingLaminar { diameter_ratio }.value()).abs() < 0.0165);
    }
}

#[test]
fn law_standing_pipe_makes_no_surge() {
    for end in [End::Closed, OPEN] {
        assert!(trip_pressure(&mud(), &string(), &trip(0.0, end), &mut Off).pressure.abs() < f64::MIN_POSITIVE);
    }
}

fn slot(curve: HerschelBulkley, slot_height: f64, wall_speed: f64, mud_velocity: f64) -> f64 {
    MovingWall { slot_height, wall_speed, mud_velocity }.stress_fall(&curve, &mut Off)
}

/// SciPy 1.17.1, brentq over velocity profiles summed by trapezoids on 20,001 points: yield stress, consistency, index, height, speed
/// of the wall, mean velocity, fall of the stress. The trapezoids leave about a millionth.
#[test]
fn agrees_scipy_the_moving_wall_of_a_slot() {
    for (yield_stress, consistency, flow_index, height, wall, mud, fall) in [
        (3.0, 0.5, 0.7, 0.04, 0.5, 0.3, 32.078_799),
        (5.0, 0.8, 0.55, 0.02, 0.69, 0.9, 60.522_150),
        (0.0, 1.0, 0.4, 1.0, 1.0, 0.3, 4.283_108_4),
        (0.0, 1.0, 0.6, 1.0, 1.0, 1.0, 8.379_254_3),
        (2.0, 0.03, 1.0, 0.03, 0.4, 0.25, 11.061_459),
    ] {
        let found = slot(HerschelBulkley { yield_stress, consistency, flow_index }, height, wall, mud);
        assert!(close(found, fall, 3e-6), "{found} {fall}");
    }
}

/// Plane Couette and Poiseuille flow together: G h = 12 μ (vm + vw/2)/h, whichever way the mud goes.
#[test]
fn law_a_newtonian_slot_with_a_moving_wall_has_its_closed_form() {
    let curve = HerschelBulkley { yield_stress: 0.0, consistency: 0.05, flow_index: 1.0 };
    for mud in [-2.0, -0.9, -0.3, -0.1, 0.0, 0.2, 1.0, 5.0] {
        let plane = 12.0 * 0.05 * (mud + 0.4) / 0.02;
        assert!(close(slot(curve, 0.02, 0.8, mud), plane, 1e-9), "{mud}");
    }
}

#[test]
fn law_a_wall_at_rest_leaves_the_slot_as_it_was() {
    let curve = HerschelBulkley { yield_stress: 4.0, consistency: 0.5, flow_index: 0.6 };
    let still = crate::circulating::laminar::wall_stress(&curve, &annulus(8.5, 5.0), 0.7, &mut Off);
    let height = 0.5 * 3.5 * INCH;
    assert!(close(slot(curve, height, 0.0, 0.7), 2.0 * still, 1e-9));
    // A wall that hardly moves changes hardly anything.
    assert!(close(slot(curve, height, 1e-9, 0.7), 2.0 * still, 1e-6));
}

/// Where the mud goes along with the wall faster than half its speed, the same flow seen from the wall goes the other way.
#[test]
fn law_the_flow_seen_from_the_wall_is_the_same() {
    let curve = HerschelBulkley { yield_stress: 3.0, consistency: 0.4, flow_index: 0.7 };
    for mud in [0.1, 0.5, 2.0] {
        assert!(close(slot(curve, 0.03, 0.6, mud), -slot(curve, 0.03, 0.6, -mud - 0.6), 1e-12));
    }
}

/// The constant of a Newtonian fluid is an upper bound for muds in laminar flow, and exact for a Newtonian one.
#[test]
fn law_a_mud_clings_no_more_than_a_newtonian_fluid() {
    let newtonian = MudRheology::of(Rheology::Newtonian { viscosity: 0.08 });
    for stretch in string() {
        for speed in [0.05, 0.3, 1.0] {
            let of = |mud: &MudRheology, clinging| {
                trip_gradient(mud, &stretch, &Trip { clinging, ..trip(speed, End::Closed) }, 0.0, &mut Off)
            };
            let (exact, bound) = (of(&mud(), Clinging::MovingWall), of(&mud(), Clinging::Newtonian));
            assert!(exact <= bound * (1.0 + 1e-9) && exact > 0.85 * bound, "{exact} {bound}");
            assert!(close(of(&newtonian, Clinging::MovingWall), of(&newtonian, Clinging::Newtonian), 1e-3));
        }
    }
}

/// Pumping while running in adds its flow to what the pipe displaces; standing pipe leaves what the pump alone loses.
#[test]
fn law_pumping_adds_to_the_surge() {
    let with = |pumped, speed| trip_pressure(&mud(), &string(), &Trip { pumped, ..trip(speed, End::Closed) }, &mut Off).pressure;
    assert!(with(0.02, 0.3) > with(0.0, 0.3));
    let alone: f64 = string()
        .iter()
        .map(|stretch| {
            let passage = Passage::Annulus { hole_diameter: stretch.hole_diameter, pipe_diameter: stretch.pipe_diameter };
            let stream = Stream { velocity: passage.velocity(0.02, &mut Off), density: 1300.0 };
            pressure_gradient(LossMethod::Exact, &mud(), &passage, stream, &mut Off) * stretch.length
        })
        .sum();
    assert!(close(with(0.02, 0.0), alone, 1e-8));
}
