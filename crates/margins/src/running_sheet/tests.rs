//! Laws of the running sheet: against the questions on the run, the trip sheet, and sums taken in another order.

use super::*;
use crate::trip_sheet::{Order, Run, trip_sheet};
use crate::{Answer, Figure};
use rigwright_well::Piece;

/// A tally of the casing of a section: joints of some uneven lengths that together are as long as the well file has it.
fn tally(fit: &Fit, section: usize, joints: usize) -> Tally {
    let casing = fit.well.sections[section].casing.as_ref().unwrap();
    let length = casing.shoe - casing.top;
    let share = |index: usize| 1.0 + 0.1 * (index % 7) as f64;
    let all: f64 = (0..joints).map(share).sum();
    let piece = |index: usize| Piece {
        number: format!("J{index}"),
        kind: match index {
            0 => PieceKind::Shoe,
            2 => PieceKind::Collar,
            _ => PieceKind::Joint,
        },
        length: length * share(index) / all,
        make_up_loss: 0.0,
        linear_mass: Some(casing.linear_mass),
        grade: casing.grade.clone(),
        remark: String::new(),
    };
    Tally { overall: false, pieces: (0..joints).map(piece).collect() }
}

fn told(fit: &Fit, section: usize) -> Vec<Figure> {
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::section_end(fit, section));
    match (question("hoisting/casing-run").unwrap().ask)(&scene, &mut Off) {
        Answer::Told(figures) => figures,
        other => panic!("{other:?}"),
    }
}

fn figure(figures: &[Figure], name: &str) -> f64 {
    figures.iter().find(|figure| figure.name == name).unwrap().value
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1.0)
}

/// With the last joint in, the sheet says what the questions on the run say of the whole string.
#[test]
fn law_the_last_joint_is_the_string_of_the_questions() {
    for (name, section) in [("ostrick", 0), ("ostrick", 2), ("tolvane", 1)] {
        let fit = crate::example(name);
        let sheet = running_sheet(&fit, section, Some(&tally(&fit, section, 40))).unwrap();
        let (figures, last) = (told(&fit, section), sheet.pieces.last().unwrap());
        assert_eq!((sheet.pieces.len(), sheet.spares.len()), (40, 0), "{name}");
        assert!(sheet.space_out.stick_up.abs() < 1e-6, "{name}");
        for (hook, figure_name) in [
            (last.hook.up, "hook load picked up at the shoe's depth"),
            (last.hook.down, "lowered"),
            (last.hook.still, "hanging still"),
        ] {
            assert!((hook / figure(&figures, figure_name) - 1.0).abs() < 1e-6, "{name}: {figure_name}");
        }
        assert!(near(last.volumes.fill_total, figure(&figures, "mud to fill it")), "{name}");
    }
}

/// A liner weighs on the hook what its own length does until it is landed; landed it hangs on its pipe as the question says.
#[test]
fn law_a_landed_liner_is_that_of_the_question() {
    let fit = crate::example("tolvane");
    let sheet = running_sheet(&fit, 2, None).unwrap();
    assert!(near(sheet.landed.up, figure(&told(&fit, 2), "hook load picked up at the shoe's depth")));
    let casing = fit.well.sections[2].casing.as_ref().unwrap();
    assert!(casing.top > 0.0 && near(sheet.space_out.planned, casing.shoe - casing.top));
    assert!(sheet.pieces.last().unwrap().total < casing.shoe, "only the liner is counted in joints");
}

/// Steel and bore, against the trip sheet's sums, which are taken another way.
#[test]
fn law_steel_and_bore_are_what_a_closed_end_displaces() {
    for (name, section) in [("ostrick", 1), ("tolvane", 1)] {
        let fit = crate::example(name);
        let sheet = running_sheet(&fit, section, Some(&tally(&fit, section, 25))).unwrap();
        let shoe = fit.well.sections[section].casing.as_ref().unwrap().shoe;
        let total = |float: bool| {
            let order =
                Order { section, hole_depth: fit.well.sections[section].bottom, bit_depth: shoe, run: Run::Casing { float } };
            trip_sheet(&fit, &order, &mut Off).unwrap().total()
        };
        let volumes = sheet.pieces.last().unwrap().volumes;
        assert!((volumes.open_total / total(false) - 1.0).abs() < 1e-6, "{name}");
        assert!((volumes.closed_total / total(true) - 1.0).abs() < 1e-6, "{name}");
        let (steel, bore) = sheet.per_length;
        for piece in &sheet.pieces {
            let Volumes { open, closed, fill, .. } = piece.volumes;
            assert!(near(open, steel * piece.length) && near(closed - open, bore * piece.length) && near(fill, closed - open));
        }
        let sum = |read: fn(&Volumes) -> f64| sheet.pieces.iter().map(|piece| read(&piece.volumes)).sum::<f64>();
        assert!(near(sum(|volumes| volumes.open), volumes.open_total) && near(sum(|volumes| volumes.fill), volumes.fill_total));
    }
}

/// A floated string takes nothing for as long as its empty end is.
#[test]
fn law_an_empty_end_is_not_filled() {
    let mut fit = crate::example("ostrick");
    fit.well.sections[2].casing.as_mut().unwrap().floated = 500.0;
    let sheet = running_sheet(&fit, 2, None).unwrap();
    for piece in &sheet.pieces {
        let wanted = sheet.per_length.1 * (piece.total.min(sheet.space_out.planned) - 500.0).max(0.0);
        assert!(near(piece.volumes.fill_total, wanted), "{piece:?}");
    }
}

/// Pages, sums and tops hang together: the subtotals make the total, and each piece ends where the next begins.
#[test]
fn law_subtotals_make_the_total() {
    let fit = crate::example("ostrick");
    let sheet = running_sheet(&fit, 2, Some(&tally(&fit, 2, 47))).unwrap();
    let sum: f64 = sheet.pages.iter().map(|page| page.length).sum();
    assert_eq!(sheet.pages.iter().map(|page| page.count).collect::<Vec<_>>(), [10, 10, 10, 10, 7]);
    assert!(near(sum, sheet.space_out.run) && near(sheet.pages.last().unwrap().total, sum) && near(sheet.sums.forward, sum));
    assert!(sheet.sums.agree());
    let shoe = fit.well.sections[2].casing.as_ref().unwrap().shoe;
    let mut below = shoe;
    for piece in &sheet.pieces {
        assert!(near(below - piece.length, piece.top), "{piece:?}");
        below = piece.top;
    }
}

/// What the threads take is the only difference between a tally of overall lengths and one of made-up lengths.
#[test]
fn law_make_up_loss_is_taken_off_once_a_thread() {
    let fit = crate::example("ostrick");
    let made_up = tally(&fit, 1, 30);
    let mut overall = made_up.clone();
    overall.overall = true;
    for piece in &mut overall.pieces {
        piece.make_up_loss = if piece.kind == PieceKind::Shoe { 0.0 } else { 0.1 };
        piece.length += piece.make_up_loss;
    }
    let (one, two) = (running_sheet(&fit, 1, Some(&made_up)).unwrap(), running_sheet(&fit, 1, Some(&overall)).unwrap());
    assert!(near(one.space_out.run, two.space_out.run));
    assert!(near(two.sums.measured - two.sums.make_up_loss, one.sums.forward) && near(two.sums.make_up_loss, 2.9));
    for (a, b) in one.pieces.iter().zip(&two.pieces) {
        assert!((a.top - b.top).abs() < 1e-6 && near(a.hook.still, b.hook.still));
    }
}

/// More pieces than it takes stay on the racks; the hanger goes in last whatever its line; too few are said to lack.
#[test]
fn law_pieces_over_and_lacking() {
    let fit = crate::example("ostrick");
    let even = tally(&fit, 1, 50);
    let mut long = even.clone();
    let spare = Piece { number: "S1".to_owned(), kind: PieceKind::Joint, ..even.pieces[5].clone() };
    long.pieces.push(spare.clone());
    long.pieces.push(Piece { number: "S2".to_owned(), ..spare.clone() });
    let sheet = running_sheet(&fit, 1, Some(&long)).unwrap();
    assert_eq!(sheet.spares.iter().map(|spare| spare.number.as_str()).collect::<Vec<_>>(), ["S1", "S2"]);
    let hanger = Piece { number: "H".to_owned(), kind: PieceKind::Hanger, length: 0.8, ..spare };
    long.pieces.insert(3, hanger);
    let sheet = running_sheet(&fit, 1, Some(&long)).unwrap();
    assert_eq!(sheet.pieces.last().unwrap().number, "H");
    assert!(sheet.space_out.stick_up >= 0.0 && sheet.space_out.without_last.unwrap() < 0.0);
    let mut short = even.clone();
    let left_out = short.pieces.pop().unwrap().length;
    let sheet = running_sheet(&fit, 1, Some(&short)).unwrap();
    assert!((sheet.space_out.stick_up + left_out).abs() < 1e-6);
    assert!(sheet.cautions.iter().any(|caution| caution.text.contains("does not reach")), "{:?}", sheet.cautions);
    let track = sheet.space_out.shoe_track.unwrap();
    assert!(near(track, even.pieces[0].length + even.pieces[1].length));
}

/// Without a tally joints are as long as the well file says, and the last may stand up.
#[test]
fn law_planned_joints_reach_the_shoe() {
    let fit = crate::example("ostrick");
    let sheet = running_sheet(&fit, 2, None).unwrap();
    let casing = fit.well.sections[2].casing.as_ref().unwrap();
    assert_eq!(sheet.pieces.len(), (casing.shoe / casing.joint_length).ceil() as usize);
    assert!((0.0..casing.joint_length).contains(&sheet.space_out.stick_up));
    assert!(sheet.space_out.without_last.unwrap() < 0.0 && !sheet.tallied && sheet.limit.is_some());
}

#[test]
fn rejects_a_section_without_casing() {
    let mut fit = crate::example("ostrick");
    *fit.well.sections[2].casing = None;
    assert!(running_sheet(&fit, 2, None).unwrap_err().text.contains("no casing"));
    assert!(running_sheet(&fit, 9, None).is_err());
}
