//! Papers as PDF, read back with pdftotext (poppler): what they say, and that no word leaves its sheet.

use crate::{demo, with_desk};
use rigwright_margins::Verdict;
use rigwright_papers::paper::{Desk, PAPERS, Paper, PaperKind};
use rigwright_press::{PressError, Size, Templates, pdf};
use rigwright_units::System;
use rigwright_wellfile::Loaded;
use std::path::PathBuf;
use std::process::Command;

/// Left and right of this no word may stand; the margin of the template is 15 mm. [points]
const MARGIN: f64 = 15.0 / 25.4 * 72.0 - 1.0;

pub(crate) fn set_pdf(paper: &Paper, size: Size) -> Vec<u8> {
    pdf(paper, size, &Templates::default()).expect("our own template sets every paper")
}

/// Writes a PDF where a reader can look at it, and gives what `pdftotext` makes of it.
pub(crate) fn text_of(name: &str, bytes: &[u8], how: &str) -> String {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("papers");
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join(format!("{name}.pdf"));
    std::fs::write(&file, bytes).expect("the PDF is written");
    let output = Command::new("pdftotext").args([how, file.to_str().expect("a path"), "-"]).output();
    let output = output.expect("pdftotext is installed: cargo xtask test brings it");
    assert!(output.status.success(), "{name}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("text")
}

/// Words as a reader sees them: line breaks and the soft breaks of long names do not count.
pub(crate) fn words(text: &str) -> String {
    text.replace('\u{200b}', "").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A page: its width, and the words on it with their left and right edges.
type Places = (f64, Vec<(f64, f64, String)>);

pub(crate) fn places(name: &str, bytes: &[u8]) -> Vec<Places> {
    let attribute = |line: &str, key: &str| -> f64 {
        let from = line.split(&format!("{key}=\"")).nth(1).unwrap_or_else(|| panic!("{key} in {line}"));
        from.split('"').next().expect("it ends").parse().expect("a number")
    };
    let mut pages: Vec<Places> = Vec::new();
    for line in text_of(name, bytes, "-bbox").lines().map(str::trim) {
        if line.starts_with("<page") {
            pages.push((attribute(line, "width"), Vec::new()));
        } else if line.starts_with("<word") {
            let word = line.split('>').nth(1).unwrap_or("").split('<').next().unwrap_or("").to_owned();
            pages.last_mut().expect("a word stands on a page").1.push((attribute(line, "xMin"), attribute(line, "xMax"), word));
        }
    }
    pages
}

pub(crate) fn no_word_leaves_its_sheet(name: &str, paper: &Paper) {
    for size in [Size::A4, Size::Letter] {
        let name = format!("{name}-{size}");
        let pages = places(&name, &set_pdf(paper, size));
        for (number, (width, words)) in (1..).zip(&pages) {
            assert!(!words.is_empty(), "{name}: page {number} is empty");
            let wide = if size == Size::A4 { 210.0 / 25.4 * 72.0 } else { 612.0 };
            assert!((width - wide).abs() < 0.5, "{name}: {width} points wide");
            for (left, right, word) in words {
                // The word across a stale face is turned and may stand anywhere.
                let within = *left >= MARGIN && *right <= width - MARGIN;
                assert!(within || word.contains("STALE"), "{name}, page {number}: `{word}` from {left} to {right} of {width}");
            }
        }
    }
}

fn each(loaded: &Loaded, units: System, beside: Option<System>, work: impl Fn(&PaperKind, &Paper, &Desk)) {
    with_desk(loaded, units, beside, |desk| {
        for kind in PAPERS {
            work(kind, &kind.make(desk), desk);
        }
    });
}

#[test]
fn every_paper_says_what_the_review_says() {
    for name in ["ostrick.toml", "tolvane.toml"] {
        let loaded = demo(name);
        each(&loaded, System::Field, None, |kind, paper, desk| {
            let text = words(&text_of(&format!("{name}-{}", kind.slug), &set_pdf(paper, Size::A4), "-layout"));
            let well = desk.subject.fit.well.name.as_str();
            for said in
                [kind.title, well, "2026-12-01 06:00 UTC", &desk.fingerprint.to_string(), "made by", "checked by", "page 1 of"]
            {
                assert!(text.contains(said), "{name}, {}: no `{said}` in {text}", kind.slug);
            }
            assert!(text.contains("a certified person on site decide"), "{}", kind.slug);
            assert_eq!(kind.control, text.contains("If the well flows, shut in first"), "{}", kind.slug);
        });
        // The rig-fit sheet names the weakest link with its figures, and every answer that is short.
        with_desk(&loaded, System::Field, None, |desk| {
            let paper = PaperKind::find("rig-fit").expect("it is a paper").make(desk);
            let text = words(&text_of(&format!("{name}-fit"), &set_pdf(&paper, Size::A4), "-raw"));
            let weakest = desk.subject.review.weakest().expect("something is judged");
            let judged = weakest.answer.judged().expect("it is judged");
            let demand = rigwright_units::show_up(judged.demand, weakest.question.kind, System::Field);
            let limit = rigwright_units::show_down(judged.limit.capacity, weakest.question.kind, System::Field);
            assert!(text.contains(&format!("{demand} of {limit}")), "{demand} of {limit} in {text}");
            for asked in desk.subject.review.of(Verdict::Short) {
                assert!(text.contains(asked.question.title), "{}", asked.question.slug);
            }
        });
    }
}

#[test]
fn what_belongs_on_one_page_stands_on_one_in_both_sizes_and_units() {
    for (units, beside) in [(System::Field, None), (System::Metric, Some(System::Field)), (System::Canadian, None)] {
        each(&demo("ostrick.toml"), units, beside, |kind, paper, _| {
            let name = format!("ostrick-{}-{units}", kind.slug);
            no_word_leaves_its_sheet(&name, paper);
            for size in [Size::A4, Size::Letter] {
                let pages = places(&name, &set_pdf(paper, size)).len();
                assert!(!kind.one_page || pages == 1, "{name}, {size}: {pages} pages");
            }
        });
    }
}

#[test]
fn same_paper_same_bytes() {
    each(&demo("ostrick.toml"), System::Field, None, |kind, paper, _| {
        assert!(set_pdf(paper, Size::A4) == set_pdf(paper, Size::A4), "{}", kind.slug);
    });
}

#[test]
fn a_stale_paper_says_so_across_its_face_and_in_words() {
    with_desk(&demo("ostrick.toml"), System::Field, None, |desk| {
        let mut paper = PaperKind::find("handover").expect("it is a paper").make(desk);
        paper.stale.push("the slow rate is older than the mud".to_owned());
        let text = words(&text_of("stale", &set_pdf(&paper, Size::A4), "-raw"));
        assert!(text.contains("STALE, not to be used: the slow rate is older than the mud."), "{text}");
        assert!(text.matches("STALE").count() > 1, "{text}");
    });
}

#[test]
fn a_broken_template_is_told_with_its_place_and_a_sound_one_is_used() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("templates");
    std::fs::create_dir_all(&folder).expect("a folder");
    with_desk(&demo("ostrick.toml"), System::Field, None, |desk| {
        let paper = PaperKind::find("rig-fit").expect("it is a paper").make(desk);
        std::fs::write(folder.join("rig-fit.typ"), "#let paper = json(\"/paper.json\")\n\n#paper.heading").expect("written");
        let own = Templates::of_folder(&folder).expect("it is a folder");
        let Err(PressError::Template(faults)) = pdf(&paper, Size::A4, &own) else { panic!("it is broken") };
        assert_eq!((faults[0].file.as_str(), faults[0].line, faults[0].column), ("rig-fit.typ", 3, 8), "{faults:?}");
        assert!(faults[0].message.contains("heading"), "{faults:?}");
        std::fs::write(folder.join("rig-fit.typ"), "#let paper = json(\"/paper.json\")\nOur own: #paper.head.well")
            .expect("written");
        let own = Templates::of_folder(&folder).expect("it is a folder");
        let text = text_of("own", &pdf(&paper, Size::A4, &own).expect("it is sound"), "-raw");
        assert!(text.contains("Our own: Ostrick"), "{text}");
        // A template reads nothing but what it is given.
        std::fs::write(folder.join("rig-fit.typ"), "#read(\"/etc/passwd\")").expect("written");
        let own = Templates::of_folder(&folder).expect("it is a folder");
        assert!(matches!(pdf(&paper, Size::A4, &own), Err(PressError::Template(_))));
    });
    assert!(Templates::of_folder(&folder.join("nowhere")).is_err());
}
