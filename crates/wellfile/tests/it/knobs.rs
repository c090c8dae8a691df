//! The knobs of the entry table, turned on the example well.

use crate::root;
use rigwright_units::{Kind, parse};
use rigwright_well::Fit;
use rigwright_wellfile::{Disk, ENTRIES, Knob, Step, knob, nozzles_text, read};

fn ostrick() -> Fit {
    read(&root("examples/ostrick.toml"), None, &Disk).unwrap().fit
}

fn knobs() -> impl Iterator<Item = &'static Knob> {
    ENTRIES.iter().filter_map(|entry| entry.knob)
}

/// A turn by one step in a direction that is allowed.
fn one_step(knob: &Knob, fit: &Fit, section: usize) -> Option<f64> {
    let now = (knob.get)(fit, section)?;
    let choices = match knob.step {
        Step::By(step) => vec![now + step, now - step],
        Step::Among(choices) => choices(fit, section).into_iter().filter(|choice| (choice - now).abs() > 1e-9).collect(),
    };
    choices.into_iter().find(|choice| (knob.allowed)(fit, section).contains(*choice))
}

#[test]
fn law_a_knob_reads_what_it_was_turned_to() {
    let fit = ostrick();
    for knob in knobs() {
        for section in 0..fit.well.sections.len() {
            let Some(now) = (knob.get)(&fit, section) else { continue };
            assert!((knob.allowed)(&fit, section).contains(now), "{}: it stands where it may not", knob.name);
            let to = one_step(knob, &fit, section).unwrap_or_else(|| panic!("{} cannot be turned", knob.name));
            let mut turned = fit.clone();
            (knob.set)(&mut turned, section, to);
            assert!(((knob.get)(&turned, section).unwrap() - to).abs() < 1e-9, "{}", knob.name);
            for other in 0..fit.well.sections.len() {
                let same = (knob.get)(&turned, other) == (knob.get)(&fit, other);
                assert!(
                    same || other == section || !knob.per_section,
                    "{} of section {section} turned that of {other}",
                    knob.name
                );
            }
        }
    }
}

#[test]
fn law_names_are_unique_and_kinds_are_those_of_the_row() {
    for entry in ENTRIES {
        let Some(of_row) = entry.knob else { continue };
        assert_eq!(entry.kind(), Some(of_row.kind), "{}", entry.path);
        assert!(std::ptr::eq(knob(of_row.name).unwrap(), of_row), "two knobs are named {}", of_row.name);
        assert_eq!(entry.path.starts_with("section[]"), of_row.per_section, "{}", entry.path);
    }
    assert_eq!(knobs().count(), 19);
    assert!(knob("pore pressure").is_none());
}

#[test]
fn law_what_is_not_the_crews_to_choose_has_no_knob() {
    // The yield strength of casing goes by its grade, which is chosen; that of a part of the string is what it is.
    for entry in ENTRIES.iter().filter(|entry| entry.knob.is_some() && entry.path != "section[].casing.yield") {
        let forbidden = ["formation", "margins", "reserves", "kick", "rating", "strength", "design_factor", "friction", "yield"];
        assert!(!forbidden.iter().any(|word| entry.path.contains(word)), "{}", entry.path);
    }
}

#[test]
fn law_lines_are_those_of_the_mast_that_fit_the_sheaves() {
    let mut fit = ostrick();
    let Step::Among(choices) = knob("lines strung").unwrap().step else { panic!("lines go by choice") };
    assert_eq!(choices(&fit, 0), [8.0, 10.0, 12.0]);
    // Twelve lines take six sheaves in the block, ten take five.
    fit.rig.block.sheaves = 5;
    assert_eq!(choices(&fit, 0), [8.0, 10.0]);
    // One sheave of the crown is the fast line's.
    fit.rig.crown.sheaves = 5;
    assert_eq!(choices(&fit, 0), [8.0]);
}

#[test]
fn law_a_casing_seat_moves_its_section_and_the_next() {
    let fit = ostrick();
    let seat = knob("casing seat").unwrap();
    let stand = parse("93 ft", Kind::Depth).unwrap();
    let mut turned = fit.clone();
    (seat.set)(&mut turned, 0, fit.well.sections[0].casing.as_ref().unwrap().shoe + stand);
    let (before, after) = (&fit.well.sections, &turned.well.sections);
    assert!((after[0].bottom - before[0].bottom - stand).abs() < 1e-9);
    assert!((after[1].top - after[0].bottom).abs() < 1e-9);
    assert!((after[1].bottom - before[1].bottom).abs() < 1e-9);
    assert!((seat.get)(&fit, 2).is_none(), "the last casing ends where the well ends");
}

#[test]
fn published_nozzle_sets() {
    let fit = ostrick();
    let area = knob("nozzle area").unwrap();
    let Step::Among(choices) = area.step else { panic!("nozzles go by choice") };
    let sets = choices(&fit, 2);
    assert!(sets.windows(2).all(|pair| pair[0] < pair[1]));
    // Five 13s: 5 x pi/4 x (13/32)^2 in2 = 0.648 in2, as tables of nozzle areas have it.
    let now = (area.get)(&fit, 2).unwrap();
    assert!((now / 0.0254f64.powi(2) - 0.648).abs() < 0.0005);
    assert_eq!(nozzles_text(5, now).unwrap(), "5x13");
    let next = sets.iter().copied().find(|set| *set > now * (1.0 + 1e-9)).unwrap();
    assert_eq!(nozzles_text(5, next).unwrap(), "4x13, 1x14");
    // A set that was not of two neighbouring sizes is no step, but its neighbours are.
    assert_eq!(nozzles_text(4, (area.get)(&fit, 0).unwrap()), None);
    assert!(choices(&fit, 0).len() > 50);
}

#[test]
fn law_back_pressure_is_a_knob_where_it_is_set_up() {
    let mut fit = ostrick();
    let still = knob("back pressure, pumps off").unwrap();
    assert!((still.get)(&fit, 2).is_none());
    fit.well.sections[2].managed_pressure =
        Some(rigwright_well::ManagedPressure { flowing: 1e5, still: 3e5, ..Default::default() });
    assert_eq!((still.get)(&fit, 2), Some(3e5));
}
