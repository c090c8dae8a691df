//! Laws of friction.

use super::*;
use crate::circulating::annulus::annulus_gradient;
use crate::circulating::friction::*;
use crate::circulating::generalised::*;
use crate::circulating::laminar::*;
use crate::circulating::losses::*;
use crate::circulating::surface::*;
use crate::{Formula, Line, Off, Working};

const PASSAGES: [(f64, f64); 5] = [(8.5, 5.0), (8.5, 6.75), (12.25, 5.0), (17.5, 5.0), (6.0, 3.5)];

fn passages() -> Vec<Passage> {
    let annuli = PASSAGES.iter().map(|&(hole, pipe)| annulus(hole, pipe));
    [bore(4.276), bore(2.25)].into_iter().chain(annuli).collect()
}

fn gradient(method: LossMethod, mud: &MudRheology, passage: &Passage, velocity: f64) -> f64 {
    pressure_gradient(method, mud, passage, stream(velocity), &mut Off)
}

/// Velocities from a creep to far beyond any pump, evenly by powers.
fn velocities() -> impl Iterator<Item = f64> {
    (0..400).map(|step| 1e-4 * 10f64.powf(f64::from(step) / 80.0))
}

#[test]
fn law_losses_increase_with_flow() {
    for method in LossMethod::ALL {
        for passage in passages() {
            let mut before = 0.0;
            for velocity in velocities() {
                let now = gradient(method, &mud(), &passage, velocity);
                assert!(now.is_finite() && now > 0.0);
                // Only the methods without transition may step, and only upwards or down by their own jump at the switch.
                let smooth = matches!(method, LossMethod::Generalised | LossMethod::Exact);
                assert!(!smooth || now > before, "{method:?} {passage:?} at {velocity}: {now} after {before}");
                before = now;
            }
        }
    }
}

#[test]
fn law_no_flow_loses_nothing() {
    for method in LossMethod::ALL {
        let still = friction(method, &mud(), &annulus(8.5, 5.0), stream(0.0), &mut Off);
        assert!(still.gradient.abs() < f64::MIN_POSITIVE && still.regime == Regime::Still);
    }
}

#[test]
fn law_the_generalised_factor_has_no_jump() {
    for passage in passages() {
        for method in [LossMethod::Generalised, LossMethod::Exact] {
            for velocity in velocities() {
                let (here, there) =
                    (gradient(method, &mud(), &passage, velocity), gradient(method, &mud(), &passage, velocity * (1.0 + 1e-6)));
                assert!(close(here, there, 1e-5), "{method:?} {passage:?} at {velocity}");
            }
        }
    }
}

#[test]
fn law_herschel_bulkley_holds_the_simpler_fluids() {
    let velocity = 0.4;
    for passage in passages() {
        let stress = |rheology: Rheology| wall_stress(&rheology.herschel_bulkley(), &passage, velocity, &mut Off);
        let width = passage.width();
        let newtonian = stress(Rheology::Newtonian { viscosity: 0.03 });
        let rate = 8.0 * velocity / width * if matches!(passage, Passage::Bore { .. }) { 1.0 } else { 1.5 };
        assert!(close(newtonian, 0.03 * rate, 1e-10), "Hagen-Poiseuille and plane Poiseuille flow");

        let (consistency, flow_index) = (0.4, 0.6);
        let power = stress(Rheology::PowerLaw { consistency, flow_index });
        let geometry = geometry_factor(&passage);
        let shear_rate = WallShearRate { velocity, width, flow_index, geometry }.value();
        assert!(close(power, consistency * shear_rate.powf(flow_index), 1e-10), "Rabinowitsch and Mooney");

        let near = stress(Rheology::HerschelBulkley { yield_stress: 1e-9, consistency, flow_index });
        assert!(close(near, power, 1e-6), "no yield stress: power law");

        let bingham = stress(Rheology::Bingham { plastic_viscosity: 0.03, yield_point: 5.0 });
        if let Passage::Bore { inner_diameter } = passage {
            let exact = BuckinghamReiner { wall_stress: bingham, plastic_viscosity: 0.03, yield_point: 5.0, inner_diameter };
            assert!(close(exact.value(), velocity, 1e-10), "Buckingham and Reiner");
        } else {
            // Plane flow of a Bingham mud: v = (tw h/(6 PV)) (1 - 3/2 x + 1/2 x³).
            let x = 5.0 / bingham;
            let plane = bingham * (width / 2.0) / (6.0 * 0.03) * (1.0 - 1.5 * x + 0.5 * x.powi(3));
            assert!(close(plane, velocity, 1e-10), "plane Bingham flow");
        }
    }
}

#[test]
fn law_the_wall_stress_never_falls_below_the_yield_stress() {
    let curve = CURVE.herschel_bulkley();
    for passage in passages() {
        assert!(close(wall_stress(&curve, &passage, 0.0, &mut Off), curve.yield_stress, 1e-12));
        let mut before = curve.yield_stress;
        for velocity in velocities() {
            let now = wall_stress(&curve, &passage, velocity, &mut Off);
            assert!(now > before, "{passage:?} at {velocity}");
            before = now;
        }
    }
}

#[test]
fn law_a_narrow_annulus_is_a_slot() {
    let curve = CURVE.herschel_bulkley();
    let miss = |hole: f64, pipe: f64| {
        let passage = annulus(hole, pipe);
        let Passage::Annulus { hole_diameter, pipe_diameter } = passage else { unreachable!() };
        let slot = 4.0 * wall_stress(&curve, &passage, 0.5, &mut Off) / passage.width();
        slot / annulus_gradient(&curve, hole_diameter, pipe_diameter, 0.5, &mut Off).unwrap() - 1.0
    };
    let misses = [miss(10.0, 3.0), miss(10.0, 5.0), miss(10.0, 8.0), miss(10.0, 9.8)];
    assert!(misses.windows(2).all(|pair| pair[0] > pair[1]), "{misses:?}");
    assert!(misses[0] < 0.025 && misses[3].abs() < 1e-4, "{misses:?}");
}

#[test]
fn law_the_newtonian_annulus_has_its_closed_form() {
    let curve = Rheology::Newtonian { viscosity: 0.05 }.herschel_bulkley();
    for (hole, pipe) in [(10.0, 0.5), (10.0, 3.0), (10.0, 6.0), (10.0, 9.0)] {
        let (hole_diameter, pipe_diameter, velocity) = (hole * INCH, pipe * INCH, 0.7);
        let found = annulus_gradient(&curve, hole_diameter, pipe_diameter, velocity, &mut Off).unwrap();
        let constant = AnnulusFriction { hole_diameter, pipe_diameter }.constant();
        let width = hole_diameter - pipe_diameter;
        assert!(close(found, constant * 0.05 * velocity / (2.0 * width * width), 1e-9), "{hole} {pipe}");
    }
}

struct AnnulusFriction {
    hole_diameter: f64,
    pipe_diameter: f64,
}

impl AnnulusFriction {
    fn constant(&self) -> f64 {
        crate::circulating::annulus::AnnulusConstant { diameter_ratio: self.pipe_diameter / self.hole_diameter }.value()
    }
}

#[test]
fn law_laminar_methods_agree_on_a_power_law() {
    let mud = MudRheology::of(Rheology::PowerLaw { consistency: 1.5, flow_index: 0.6 });
    for passage in passages() {
        let all = [LossMethod::Generalised, LossMethod::Exact, LossMethod::PowerLaw1995];
        let found = all.map(|method| gradient(method, &mud, &passage, 0.05));
        assert!(close(found[0], found[1], 1e-4) && close(found[0], found[2], 1e-4), "{passage:?} {found:?}");
    }
}

#[test]
fn law_dodge_metzner_solves_its_equation() {
    for flow_index in [0.1, 0.4, 0.7, 1.0, 1.5] {
        for reynolds in [1e-3, 1.0, 2e3, 1e4, 1e6, 1e9] {
            let f = DodgeMetzner { reynolds, flow_index }.value();
            let n: f64 = flow_index;
            let right = 4.0 / n.powf(0.75) * (reynolds * f.powf(1.0 - n / 2.0)).log10() - 0.4 / n.powf(1.2);
            assert!(close(1.0 / f.sqrt(), right, 1e-9) || (1.0 / f.sqrt() - right).abs() < 1e-9, "{n} {reynolds}");
        }
    }
}

#[test]
fn law_smooth_colebrook_is_near_dodge_metzner_of_a_newtonian_fluid() {
    for reynolds in [5e3, 5e4, 1e6] {
        let smooth = Colebrook { reynolds, relative_roughness: 0.0 }.value();
        assert!(close(smooth, DodgeMetzner { reynolds, flow_index: 1.0 }.value(), 0.01));
    }
}

#[test]
fn law_the_api_fit_stays_near_dodge_metzner() {
    for flow_index in [0.4, 0.6, 0.8, 1.0] {
        for reynolds in [5e3, 2e4, 1e5] {
            let fit = PowerLawTurbulentFactor { reynolds, flow_index }.value();
            assert!(close(fit, DodgeMetzner { reynolds, flow_index }.value(), 0.045), "{flow_index} {reynolds}");
        }
    }
}

#[test]
fn law_the_working_ends_with_the_figure() {
    let mut working = Working::default();
    let passage = annulus(8.5, 5.0);
    let shown = pressure_gradient(LossMethod::Exact, &mud(), &passage, stream(1.0), &mut working);
    let silent = gradient(LossMethod::Exact, &mud(), &passage, 1.0);
    assert!(close(shown, silent, 1e-15));
    let Some(Line::Step { value, record, .. }) = working.lines.last() else { panic!("no last step") };
    assert!(record.slug == "friction-gradient" && close(*value, shown, 1e-15));
    assert!(working.lines.iter().any(|line| matches!(line, Line::Root(root) if root.residual.abs() < 1e-9)));
}

#[test]
fn law_a_march_adds_up_whether_shown_or_not() {
    let stretches: Vec<Stretch> =
        passages().into_iter().enumerate().map(|(at, passage)| Stretch { passage, length: 100.0 + at as f64 }).collect();
    let flow = Flow { rate: 0.03, density: 1300.0 };
    let mut working = Working::default();
    let shown = friction_loss(LossMethod::Generalised, &mud(), &stretches, flow, &mut working);
    let silent = friction_loss(LossMethod::Generalised, &mud(), &stretches, flow, &mut Off);
    assert!(close(shown, silent, 1e-12));
    let table = working.lines.iter().find_map(|line| if let Line::Table { rows, .. } = line { Some(rows) } else { None });
    let sum: f64 = table.unwrap().iter().map(|row| row[4]).sum();
    assert!(close(sum, shown, 1e-12));
}

/// Guo & Liu 2011, p. 41: combination 3 equals 479 ft of 4 1/2 in 16.6 lb/ft pipe (3.826 in).
///
/// The lines summed as plain pipes equal 344 ft by the turbulent L/d^4.86: the printed equivalent carries the fittings.
#[test]
fn published_guo_liu_surface_lines_of_combination_3() {
    let method = LossMethod::Exact;
    let loss = |mud: &MudRheology, flow, lines| surface_loss(&lines, method, mud, flow, &mut Off);
    let printed = SurfaceLines::Pipes(&[(479.0 * 0.3048, 3.826 * INCH)]);
    let parts = SurfaceCombination::Three.parts();

    let water = MudRheology::of(Rheology::Newtonian { viscosity: 1e-3 });
    let flow = Flow { rate: 0.025, density: 1000.0 };
    let share = loss(&water, flow, SurfaceLines::Pipes(&parts)) / loss(&water, flow, printed);
    assert!((share - 344.0 / 479.0).abs() < 0.02, "{share}");
}

/// Brine of the viscosity and weight of water in turbulent flow: every method then comes to Colebrook's factor of the rough pipe, in its
/// own Reynolds number, and roughness only adds.
#[test]
fn law_a_clear_fluid_between_rough_walls_loses_as_colebrook_says() {
    let water = MudRheology::of(Rheology::Newtonian { viscosity: 1e-3 });
    let roughness = 46e-6;
    let rough = water.in_rough_walls(roughness);
    let passage = bore(4.276);
    let (velocity, density) = (4.0, 1000.0);
    let stream = Stream { velocity, density };
    let reynolds = density * velocity * passage.width() / 1e-3;
    let factor = Colebrook { reynolds, relative_roughness: roughness / passage.width() }.value();
    let by_hand = FrictionGradient { friction_factor: factor, density, velocity, width: passage.width() }.value();
    for method in LossMethod::ALL {
        let found = pressure_gradient(method, &rough, &passage, stream, &mut Off);
        // Chen's factor stands within 1 % of Colebrook's; a viscometer's rounding of water adds nothing here.
        assert!((found / by_hand - 1.0).abs() < 0.01, "{method:?}: {found} {by_hand}");
        assert!(found > pressure_gradient(method, &water, &passage, stream, &mut Off));
        let annulus = annulus(8.5, 5.0);
        let outside = |mud| pressure_gradient(method, mud, &annulus, stream, &mut Off);
        assert!(outside(&rough) > outside(&water));
        // Laminar flow does not feel the wall.
        let slow = Stream { velocity: 0.005, density };
        let creeping = |mud| pressure_gradient(method, mud, &passage, slow, &mut Off);
        assert!((creeping(&rough) / creeping(&water) - 1.0).abs() < 1e-3, "{method:?}");
    }
}
