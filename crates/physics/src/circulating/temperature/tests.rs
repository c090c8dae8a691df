//! Laws of heat in the well: balances, limits, and the march against the closed form.

use super::geotherm::{Geotherm, GeothermLayer, Sea};
use super::rock::{RingedRock, Rings, Rock};
use super::steady::SteadyCirculation;
use super::transfer::*;
use super::transient::*;
use crate::{Formula, Line, Off, Working};
use std::f64::consts::PI;

fn close(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance, "{a} is not {b}");
}

/// A well of 3,000 m with all three losses.
const CIRCULATION: SteadyCirculation = SteadyCirculation {
    length: 3000.0,
    hole_diameter: 0.2159,
    pipe_diameter: 0.127,
    flow_rate: 0.03,
    density: 1300.0,
    specific_heat: 2000.0,
    inlet_temperature: 313.15,
    top_temperature: 288.15,
    temperature_gradient: 0.03,
    pipe_transfer: 150.0,
    wall_transfer: 8.0,
    losses: [9e6, 2e6, 8e6],
};

fn at(circulation: &SteadyCirculation, depth: f64) -> [f64; 2] {
    let row = circulation.profile(&[depth], &mut Off)[0];
    [row.pipe, row.annulus]
}

/// The differential equations, by differences of the closed form.
#[test]
fn law_closed_form_solves_its_equations() {
    let SteadyCirculation { pipe_diameter, hole_diameter, pipe_transfer, wall_transfer, length, losses, .. } = CIRCULATION;
    let carried = CIRCULATION.flow_rate * CIRCULATION.density * CIRCULATION.specific_heat;
    for depth in [100.0, 1500.0, 2900.0] {
        let [pipe, annulus] = at(&CIRCULATION, depth);
        let [[pipe_above, annulus_above], [pipe_below, annulus_below]] =
            [at(&CIRCULATION, depth - 1.0), at(&CIRCULATION, depth + 1.0)];
        let rock = CIRCULATION.top_temperature + CIRCULATION.temperature_gradient * depth;
        let through_pipe = PI * pipe_diameter * pipe_transfer * (annulus - pipe);
        let from_rock = PI * hole_diameter * wall_transfer * (rock - annulus);
        let friction = losses.map(|loss| loss / length * CIRCULATION.flow_rate);
        close(carried * (pipe_below - pipe_above) / 2.0, through_pipe + friction[0], 0.01);
        close(carried * (annulus_above - annulus_below) / 2.0, from_rock + friction[1] - through_pipe, 0.01);
    }
    let bottom = at(&CIRCULATION, length);
    close(at(&CIRCULATION, 0.0)[0], CIRCULATION.inlet_temperature, 1e-10);
    close(bottom[1] - bottom[0], losses[2] / (CIRCULATION.density * CIRCULATION.specific_heat), 1e-9);
}

/// What the mud carries out is what rock and friction gave it.
#[test]
fn law_closed_form_balances_heat() {
    for losses in [[0.0; 3], CIRCULATION.losses] {
        for wall_transfer in [0.5, 8.0, 300.0] {
            let circulation = SteadyCirculation { losses, wall_transfer, ..CIRCULATION };
            let count = 4000;
            let step = circulation.length / f64::from(count);
            let from_rock = |depth: f64| {
                let rock = circulation.top_temperature + circulation.temperature_gradient * depth;
                PI * circulation.hole_diameter * wall_transfer * (rock - at(&circulation, depth)[1])
            };
            // Simpson's rule.
            let weight = |i: i32| {
                if i == 0 || i == count {
                    1.0
                } else if i % 2 == 1 {
                    4.0
                } else {
                    2.0
                }
            };
            let heat: f64 = (0..=count).map(|i| weight(i) * from_rock(f64::from(i) * step)).sum::<f64>() * step / 3.0;
            let friction = circulation.flow_rate * losses.iter().sum::<f64>();
            let carried = circulation.flow_rate * circulation.density * circulation.specific_heat;
            let out = carried * (at(&circulation, 0.0)[1] - circulation.inlet_temperature);
            close(out, heat + friction, 1e-6 * out.abs().max(1e6));
        }
    }
}

#[test]
fn law_closed_form_has_its_limits() {
    let plain = SteadyCirculation { losses: [0.0; 3], ..CIRCULATION };
    // Next to nothing from the rock, 4 mK over the whole way: the mud keeps its temperature.
    let sealed = SteadyCirculation { wall_transfer: 1e-4, ..plain };
    // A rock of one temperature and mud of the same.
    let even = SteadyCirculation { temperature_gradient: 0.0, inlet_temperature: plain.top_temperature, ..plain };
    // The annulus has the temperature of the rock, but for the heat that the pipe takes on its way.
    let held = SteadyCirculation { wall_transfer: 1e9, ..plain };
    // A pipe that lets next to nothing through: 1 mK over the whole way.
    let lined = SteadyCirculation { pipe_transfer: 1e-3, ..plain };
    for depth in [0.0, 1000.0, 3000.0] {
        let [pipe, annulus] = at(&sealed, depth);
        close(pipe, plain.inlet_temperature, 4e-3);
        close(annulus, plain.inlet_temperature, 4e-3);
        let [pipe, annulus] = at(&even, depth);
        close(pipe, plain.top_temperature, 1e-9);
        close(annulus, plain.top_temperature, 1e-9);
        close(at(&lined, depth)[0], plain.inlet_temperature, 2e-3);
        if depth < 3000.0 {
            close(at(&held, depth)[1], plain.top_temperature + 0.03 * depth, 1e-3);
        }
    }
}

/// Exponentials of a hole ten times as deep and a thousandth of the flow would overflow if they were not scaled.
#[test]
fn law_closed_form_survives_deep_holes_and_slow_pumps() {
    let slow = SteadyCirculation { length: 30_000.0, flow_rate: 3e-5, pipe_transfer: 500.0, wall_transfer: 500.0, ..CIRCULATION };
    for depth in [0.0, 10.0, 15_000.0, 30_000.0] {
        let [pipe, annulus] = at(&slow, depth);
        assert!(pipe.is_finite() && annulus.is_finite());
        close(pipe, 288.15 + 0.03 * depth, 30.0);
    }
}

#[test]
fn law_hottest_mud_is_above_the_bottom() {
    let plain = SteadyCirculation { losses: [0.0; 3], ..CIRCULATION };
    let mut working = Working::default();
    let hottest = plain.hottest(&mut working);
    assert!(hottest.depth < plain.length && hottest.depth > 0.5 * plain.length);
    let around = [hottest.depth - 30.0, hottest.depth + 30.0].map(|depth| at(&plain, depth)[1]);
    assert!(around.iter().all(|annulus| *annulus < hottest.annulus));
    assert!(working.lines.iter().any(|line| matches!(line, Line::Root(root) if root.residual.abs() < 1e-6)));
    let profile = plain.profile(&[0.0, 3000.0], &mut working);
    assert_eq!(profile.len(), 2);
    assert!(working.lines.iter().any(|line| matches!(line, Line::Table { rows, .. } if rows.len() == 2)));
}

#[test]
fn law_rock_is_warmed_layer_by_layer() {
    let layers = [GeothermLayer { bottom: 1000.0, gradient: 0.02 }, GeothermLayer { bottom: 2000.0, gradient: 0.04 }];
    let sea = Some(Sea { surface: 20.0, surface_temperature: 293.15 });
    let rock = Geotherm { start: 520.0, start_temperature: 277.15, layers: &layers, sea };
    for (depth, temperature) in
        [(0.0, 293.15), (20.0, 293.15), (270.0, 285.15), (520.0, 277.15), (1000.0, 286.75), (1500.0, 306.75), (3000.0, 366.75)]
    {
        close(rock.at(depth, &mut Off), temperature, 1e-9);
    }
    let land = Geotherm { sea: None, ..rock };
    close(land.at(100.0, &mut Off), 277.15, 1e-9);
    close(Geotherm { layers: &[], ..land }.at(2000.0, &mut Off), 277.15, 1e-9);
}

/// Film coefficients join where the flow turns: no step at either end.
#[test]
fn law_film_coefficients_join() {
    let film = |reynolds_number: f64| {
        let film = Film {
            reynolds_number,
            viscosity: 0.02,
            specific_heat: 2000.0,
            conductivity: 1.0,
            hydraulic_diameter: 0.1,
            prandtl_exponent: 0.4,
        };
        film_coefficient(&film, &mut Off)
    };
    for joint in [2300.0, 10_000.0] {
        close(film(joint * (1.0 - 1e-9)), film(joint * (1.0 + 1e-9)), 1e-4);
    }
    let mut before = 0.0;
    for reynolds_number in [0.0, 2000.0, 2400.0, 6000.0, 12_000.0, 1e5] {
        let now = film(reynolds_number);
        assert!(now >= before && now > 0.0);
        before = now;
    }
}

fn rock() -> Option<RingedRock> {
    RingedRock::new(&Rock::TYPICAL, Rings::USUAL, 0.2159, 300.0)
}

/// Rings against the exact warming by a steady heat flow: p_D of van Everdingen & Hurst, Trans. AIME 186 (1949), table of
/// the constant terminal rate, as reprinted in Lee, Well Testing, SPE 1982, table C.1.
#[test]
fn published_van_everdingen_hurst_warming_of_rock() {
    for (time, printed) in [(60.0, 2.4758), (70.0, 2.5501), (80.0, 2.6147), (90.0, 2.6718), (100.0, 2.7233)] {
        let mut rock = RingedRock::new(&Rock::TYPICAL, Rings { count: 120, outer_radius: 40.0 }, 0.2, 300.0).unwrap();
        let Rock { conductivity, density, specific_heat } = Rock::TYPICAL;
        let seconds = time * density * specific_heat * 0.01 / conductivity;
        let steps = 2000;
        let flow = 2.0 * PI * conductivity;
        for _ in 0..steps {
            rock.heat_up(flow, seconds / f64::from(steps));
        }
        // One part in a thousand: the rings and the steps.
        close(rock.face_temperature(flow) - 300.0, printed, 1e-3 * printed);
        let usual = RockFunction { dimensionless_time: time }.value();
        close(usual, printed, 0.02 * printed);
    }
}

#[test]
fn law_rock_keeps_its_heat() {
    let mut rock = rock().unwrap();
    let before = rock.heat();
    for (flow, duration) in [(100.0, 60.0), (-40.0, 1e5), (0.0, 1e7)] {
        rock.heat_up(flow, duration);
    }
    let given = 100.0 * 60.0 - 40.0 * 1e5;
    close(rock.heat() - before, given, 1e-9 * before);
    // Long after, it has one temperature.
    rock.heat_up(0.0, 1e15);
    let spread = rock.temperatures().iter().fold(0.0_f64, |most, t| most.max((t - rock.temperatures()[0]).abs()));
    assert!(spread < 1e-3);
}

#[test]
fn rejects_rock_that_is_none() {
    let no_heat = Rock { specific_heat: 0.0, ..Rock::TYPICAL };
    assert!(RingedRock::new(&no_heat, Rings::USUAL, 0.2, 300.0).is_none());
    assert!(RingedRock::new(&Rock::TYPICAL, Rings { count: 1, outer_radius: 20.0 }, 0.2, 300.0).is_none());
    assert!(RingedRock::new(&Rock::TYPICAL, Rings { count: 9, outer_radius: 0.05 }, 0.2, 300.0).is_none());
}

/// The well of the closed form, cut into cells.
fn well(count: usize, outside: Outside) -> HeatWell {
    let length = CIRCULATION.length / count as f64;
    let cell = |at: usize| HeatCell {
        length,
        undisturbed: 288.15 + 0.03 * length * (at as f64 + 0.5),
        hole_diameter: CIRCULATION.hole_diameter,
        pipe_diameter: CIRCULATION.pipe_diameter,
        inner_diameter: 0.1086,
        pipe_transfer: CIRCULATION.pipe_transfer,
        face_transfer: CIRCULATION.wall_transfer,
        pipe_loss: CIRCULATION.losses[0] / CIRCULATION.length,
        annulus_loss: CIRCULATION.losses[1] / CIRCULATION.length,
        outside,
    };
    HeatWell {
        cells: (0..count).map(cell).collect(),
        density: CIRCULATION.density,
        specific_heat: CIRCULATION.specific_heat,
        rings: Rings::USUAL,
    }
}

const PUMPING: Pumping = Pumping { flow_rate: 0.03, inlet_temperature: 313.15, bit_loss: 8e6 };

/// The cells' steady state is the closed form, with an error that falls with the square of their length.
#[test]
fn law_cells_meet_the_closed_form() {
    let errors = [25, 50, 100].map(|count| {
        let (_, step) = well(count, Outside::Fixed).steady(&PUMPING, &mut Off).unwrap();
        let bottom = at(&CIRCULATION, CIRCULATION.length)[1];
        let top = at(&CIRCULATION, 0.0)[1];
        [step.bit_temperature - bottom, step.outlet_temperature - top].map(f64::abs)
    });
    for end in 0..2 {
        assert!(errors[0][end] < 0.05, "{errors:?}");
        for pair in errors.windows(2) {
            let order = (pair[0][end] / pair[1][end]).log2();
            close(order, 2.0, 0.1);
        }
    }
}

/// After a long time of small steps beside something that keeps its temperature, the march stands at the steady state.
#[test]
fn law_march_ends_at_the_steady_state() {
    let (steady, _) = well(40, Outside::Fixed).steady(&PUMPING, &mut Off).unwrap();
    let mut heat = WellHeat::at_rest(well(40, Outside::Fixed)).unwrap();
    heat.run(&PUMPING, 2e5, 100, &mut Off).unwrap();
    // The mean of a cell depends a little on the step, by the square of its length.
    for (a, b) in heat.profile().iter().zip(&steady) {
        close(a.pipe, b.pipe, 0.01);
        close(a.annulus, b.annulus, 0.01);
    }
}

#[test]
fn law_every_step_balances_heat() {
    let mut heat = WellHeat::at_rest(well(30, Outside::Rock(Rock::TYPICAL))).unwrap();
    for (flow_rate, duration) in [(0.03, 60.0), (0.0, 3600.0), (1e-6, 10.0), (0.05, 1e6), (0.03, 1.0)] {
        let step = heat.step(&Pumping { flow_rate, ..PUMPING }, duration).unwrap();
        let scale = step.from_outside.abs() + step.stored.abs() + step.carried_out.abs() + 1.0;
        close(step.carried_out + step.stored, step.from_outside + step.from_friction, 1e-9 * scale);
    }
}

/// Without friction no temperature leaves the range of those around it, whatever the step and the flow.
#[test]
fn law_temperatures_stay_between_their_surroundings() {
    let mut calm = well(20, Outside::Rock(Rock::TYPICAL));
    for cell in &mut calm.cells {
        (cell.pipe_loss, cell.annulus_loss) = (0.0, 0.0);
    }
    let (low, high) = (calm.cells[0].undisturbed, calm.cells[19].undisturbed);
    let mut heat = WellHeat::at_rest(calm).unwrap();
    for flow_rate in [0.0, 1e-9, 1e-4, 0.03, 10.0] {
        for duration in [0.01, 60.0, 1e7] {
            let pumping = Pumping { flow_rate, inlet_temperature: 310.0, bit_loss: 0.0 };
            heat.step(&pumping, duration).unwrap();
            for cell in heat.profile() {
                for temperature in [cell.pipe, cell.annulus, cell.outside] {
                    assert!(temperature > low - 1e-9 && temperature < high + 1e-9, "{temperature} at {flow_rate} {duration}");
                }
            }
        }
    }
}

#[test]
fn law_a_well_at_rest_stays_so() {
    let mut heat = WellHeat::at_rest(well(10, Outside::Rock(Rock::TYPICAL))).unwrap();
    let before = heat.profile();
    heat.step(&Pumping { flow_rate: 0.0, ..PUMPING }, 1e5).unwrap();
    for (a, b) in heat.profile().iter().zip(&before) {
        close(a.pipe, b.pipe, 1e-9);
        close(a.annulus, b.annulus, 1e-9);
    }
}

/// Circulating cools the bottom, ever more slowly; standing lets it warm again.
#[test]
fn law_bottom_cools_while_circulating_and_recovers_at_rest() {
    let mut heat = WellHeat::at_rest(well(40, Outside::Rock(Rock::TYPICAL))).unwrap();
    let mut temperatures = vec![heat.profile()[39].annulus];
    let mut working = Working::default();
    for _ in 0..4 {
        temperatures.push(heat.run(&PUMPING, 4.0 * 3600.0, 40, &mut working).unwrap().bit_temperature);
    }
    let falls: Vec<f64> = temperatures.windows(2).map(|pair| pair[0] - pair[1]).collect();
    assert!(falls.iter().all(|fall| *fall > 0.0) && falls.windows(2).all(|pair| pair[1] < pair[0]), "{falls:?}");
    assert!(working.lines.iter().any(|line| matches!(line, Line::Table { rows, .. } if rows.len() == 40)));
    let cooled = heat.profile()[39].annulus;
    heat.run(&Pumping { flow_rate: 0.0, ..PUMPING }, 24.0 * 3600.0, 24, &mut Off).unwrap();
    let recovered = heat.profile()[39].annulus;
    assert!(recovered > cooled + 5.0 && recovered < temperatures[0]);
}

#[test]
fn rejects_wells_and_pumps_that_are_none() {
    let mut empty = well(5, Outside::Fixed);
    empty.cells.clear();
    assert!(WellHeat::at_rest(empty).is_none());
    let mut wide = well(5, Outside::Fixed);
    wide.cells[2].pipe_diameter = 0.3;
    assert!(WellHeat::at_rest(wide).is_none());
    assert!(well(5, Outside::Fixed).steady(&Pumping { flow_rate: 0.0, ..PUMPING }, &mut Off).is_none());
    let mut heat = WellHeat::at_rest(well(5, Outside::Fixed)).unwrap();
    assert!(heat.step(&Pumping { flow_rate: -0.01, ..PUMPING }, 60.0).is_none());
    assert!(heat.step(&Pumping { inlet_temperature: f64::NAN, ..PUMPING }, 60.0).is_none());
    assert!(heat.step(&PUMPING, 0.0).is_none());
    assert!(heat.run(&PUMPING, 60.0, 0, &mut Off).is_none());
}
