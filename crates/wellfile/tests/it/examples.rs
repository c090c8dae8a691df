//! The example files read without a word, and mean what they say.

use crate::{Shelf, root};
use rigwright_wellfile::{Disk, Entry, Origin, entry, read};

const WELLS: [&str; 2] = ["examples/ostrick.toml", "examples/tolvane.toml"];
const RIGS: [&str; 2] = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];

#[test]
fn law_examples_read_without_a_finding() {
    for well in WELLS {
        for rig in RIGS {
            let loaded = read(&root(well), Some(&root(rig)), &Disk)
                .unwrap_or_else(|findings| panic!("{well}: {findings}: {:#?}", findings.list));
            assert!(loaded.cautions.is_empty(), "{well}: {:#?}", loaded.cautions);
        }
        assert!(read(&root(well), None, &Disk).is_ok(), "{well} with its own rig");
    }
}

/// The floating well needs a rig with a riser, and a rig that floats can be held against any well.
#[test]
fn law_the_floating_example_reads_on_its_own_rig_alone() {
    let rig = root("examples/rigs/lanternfish.toml");
    let loaded = read(&root("examples/quellmere.toml"), None, &Disk).unwrap_or_else(|all| panic!("{:#?}", all.list));
    assert!(loaded.cautions.is_empty(), "{:#?}", loaded.cautions);
    let well = loaded.fit.well;
    let bed = well.sea_bed().unwrap();
    assert!((bed - 335.0).abs() < 1e-9);
    // Casing heads stand on the sea bed, and the first section begins there.
    assert!((well.sections[0].top - bed).abs() < 1e-9);
    assert!(well.sections[..3].iter().all(|section| (section.casing.as_ref().unwrap().top - bed).abs() < 1e-9));
    for other in WELLS {
        assert!(read(&root(other), Some(&rig), &Disk).is_ok(), "{other}");
    }
    let without = read(&root("examples/quellmere.toml"), Some(&root(RIGS[0])), &Disk).unwrap_err();
    assert!(without.list.iter().any(|finding| finding.code == "well::riser"), "{:#?}", without.list);
}

/// What an example keeps in a comment, for the reader to take out, reads as well.
#[test]
fn law_the_block_in_comment_reads_too() {
    let text = std::fs::read_to_string(root("examples/tolvane.toml")).unwrap();
    let (head, tail) = text.split_at(text.find("# [section.managed_pressure]").unwrap());
    let end = tail.find("\n\n").unwrap();
    let open = format!("{head}{}{}", tail[..end].replace("\n# ", "\n").trim_start_matches("# "), &tail[end..]);
    assert_ne!(text, open);
    let shelf = Shelf::new(&[("examples/tolvane.toml", &open)]);
    let loaded = read("examples/tolvane.toml", None, &shelf).unwrap();
    let pressure = loaded.fit.well.sections[2].managed_pressure.unwrap();
    assert!(pressure.still > pressure.flowing && loaded.cautions.is_empty());
}

/// Where a value comes from is found by its path as it is found by going through all of them, and no path stands twice.
#[test]
fn law_the_origin_of_a_path_is_that_of_its_row() {
    for well in WELLS.iter().chain(&["examples/quellmere.toml"]) {
        let loaded = read(&root(well), None, &Disk).unwrap();
        let rows: Vec<(&str, &'static Entry, &Origin)> = loaded.provenance.entries().collect();
        assert!(rows.len() > 200, "{well}");
        assert!(rows.iter().map(|(path, ..)| *path).eq(loaded.provenance.iter().map(|(path, _)| path)), "{well}");
        for (path, row, origin) in &rows {
            assert!(std::ptr::eq(loaded.provenance.get(path).unwrap(), *origin), "{path} of {well}");
            assert!(std::ptr::eq(entry(path).unwrap(), *row), "{path} of {well}");
            if let Origin::Given { source, line, text, .. } = origin {
                let written = source.text.lines().nth(line - 1).unwrap();
                assert!(
                    written.contains(text.as_str()) || text == "stations" || text.contains('\n'),
                    "{path}: {text}, {written}"
                );
            }
        }
        for path in loaded.provenance.unknown().chain(["", "section[0]", "section[0].mud.wieght", "zz"]) {
            assert!(loaded.provenance.get(path).is_none(), "{path} of {well}");
        }
    }
}
