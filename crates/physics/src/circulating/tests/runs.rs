//! Laws of runs of pipe: joints, eccentricity, rotation, and the Casson mud in pipe and slot.

use super::*;
use crate::circulating::casson::*;
use crate::circulating::eccentric::EccentricLaminarRatio;
use crate::circulating::losses::{Flow, LossMethod, friction};
use crate::circulating::runs::*;
use crate::{Formula, Off};

fn flow(rate: f64) -> Flow {
    Flow { rate, density: 12.0 * POUND_PER_GALLON }
}

fn gradient(method: LossMethod, run: &Run, rate: f64, lie: &Lie) -> f64 {
    run_gradient((method, &mud()), run, flow(rate), lie, &mut Off)
}

#[test]
fn law_joints_count_by_their_share_of_the_length() {
    let (body, joints) = (annulus(8.5, 5.0), annulus(8.5, 6.625));
    let alone = |passage| gradient(LossMethod::Generalised, &Run::plain(passage), 0.03, &Lie::CONCENTRIC);
    for share in [0.0, 0.05, 0.5, 1.0] {
        let run = Run { body, joints: Some((joints, share)) };
        let found = gradient(LossMethod::Generalised, &run, 0.03, &Lie::CONCENTRIC);
        assert!(close(found, alone(body) + share * (alone(joints) - alone(body)), 1e-12));
    }
    let as_wide = Run { body, joints: Some((body, 0.05)) };
    let exact = |run: &Run| gradient(LossMethod::Exact, run, 0.03, &Lie::CONCENTRIC);
    assert!(close(exact(&as_wide), exact(&Run::plain(body)), 1e-12));
}

#[test]
fn law_a_pipe_in_the_middle_that_does_not_turn_loses_what_the_method_says() {
    for method in LossMethod::ALL {
        for passage in [bore(4.276), annulus(8.5, 5.0)] {
            let velocity = passage.velocity(0.03, &mut Off);
            let plain = friction(method, &mud(), &passage, stream(velocity), &mut Off).gradient;
            assert!(close(gradient(method, &Run::plain(passage), 0.03, &Lie::CONCENTRIC), plain, 1e-15));
        }
    }
}

#[test]
fn law_eccentricity_takes_off_the_ratio_in_laminar_flow_and_nothing_inside() {
    let lie = Lie { eccentricity: 0.5, rotation_factor: 1.2 };
    // A slow flow in a wide annulus: laminar by far.
    let run = Run::plain(annulus(12.25, 5.0));
    let ratio = EccentricLaminarRatio { eccentricity: 0.5, diameter_ratio: 5.0 / 12.25, flow_index: 0.62 }.value();
    for method in [LossMethod::Generalised, LossMethod::Exact] {
        let plain = gradient(method, &run, 0.01, &Lie::CONCENTRIC);
        assert!(close(gradient(method, &run, 0.01, &lie), 1.2 * ratio * plain, 1e-12));
    }
    let inside = Run::plain(bore(4.276));
    let (plain, aside) = (
        gradient(LossMethod::Generalised, &inside, 0.03, &Lie::CONCENTRIC),
        gradient(LossMethod::Generalised, &inside, 0.03, &lie),
    );
    assert!(close(plain, aside, 1e-15));
}

#[test]
fn law_an_eccentric_annulus_has_no_step_over_the_transition() {
    let lie = Lie { eccentricity: 0.7, rotation_factor: 1.0 };
    let run = Run { body: annulus(8.5, 5.0), joints: Some((annulus(8.5, 6.625), 0.05)) };
    for method in [LossMethod::Generalised, LossMethod::Exact] {
        for step in 0..2000 {
            let rate = 0.005 + 1e-4 * f64::from(step);
            let (here, there) = (gradient(method, &run, rate, &lie), gradient(method, &run, rate * (1.0 + 1e-6), &lie));
            assert!(here > 0.0 && close(here, there, 1e-5), "{method:?} at {rate}");
        }
    }
}

/// The stress found gives the velocity back, by the closed forms of pipe and slot.
#[test]
fn law_casson_stress_gives_the_velocity_back() {
    for (yield_stress, high_shear_viscosity) in [(0.0, 0.02), (0.5, 0.01), (6.0, 0.03), (30.0, 0.005)] {
        let casson = Casson { yield_stress, high_shear_viscosity };
        for velocity in [1e-6, 1e-3, 0.3, 2.0, 20.0] {
            let wall_stress = casson.wall_stress(&bore(4.276), velocity, &mut Off);
            let inner_diameter = 4.276 * INCH;
            let pipe = CassonPipeVelocity { wall_stress, yield_stress, high_shear_viscosity, inner_diameter }.value();
            // Near no flow the velocity is a small difference of stresses near the yield stress.
            assert!(close(pipe, velocity, 1e-6), "{casson:?} at {velocity}: {pipe}");
            let wall_stress = casson.wall_stress(&annulus(8.5, 5.0), velocity, &mut Off);
            let slot_height = 1.75 * INCH;
            let slot = CassonSlotVelocity { wall_stress, yield_stress, high_shear_viscosity, slot_height }.value();
            assert!(close(slot, velocity, 1e-6), "{casson:?} at {velocity}: {slot}");
        }
    }
}

/// Without yield stress a Casson mud is Newtonian: 8 μ v/d in a pipe, 6 μ v/h in a slot.
#[test]
fn law_casson_without_yield_stress_is_newtonian() {
    let casson = Casson { yield_stress: 0.0, high_shear_viscosity: 0.02 };
    let (pipe, slot) = (bore(4.0), annulus(8.5, 5.0));
    assert!(close(casson.wall_stress(&pipe, 1.5, &mut Off), 8.0 * 0.02 * 1.5 / (4.0 * INCH), 1e-10));
    assert!(close(casson.wall_stress(&slot, 1.5, &mut Off), 6.0 * 0.02 * 1.5 / (1.75 * INCH), 1e-10));
}
