//! Laws of surge and swab.

use super::*;
use crate::circulating::bit::BitPressureLoss;
use crate::circulating::losses::{LossMethod, pressure_gradient};
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
    Trip { pipe_speed, density: 1300.0, end, method: LossMethod::Exact, clinging: Clinging::Exact }
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
