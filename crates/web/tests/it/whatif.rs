//! What-if and write-back.

use crate::site::{Answer, Site, field};
use hyper::StatusCode;

const NUDGE: &str = "/sheet?well=ostrick.toml&if.section[2].mud.weight=11.8+ppg&if.rig.line.strung=8";

/// The cells of a sheet without the marks of what they were.
fn cells(answer: &Answer) -> Vec<String> {
    assert_eq!(answer.status, StatusCode::OK, "{}", answer.text);
    answer.text.split("<span class=\"figure\">").skip(1).map(|rest| rest.split("</span>").take(2).collect()).collect()
}

/// Definition: asking what if is asking of a file that says so.
#[tokio::test]
async fn law_what_if_equals_editing_the_file() {
    let site = Site::new();
    let before = cells(&site.get("/sheet?well=ostrick.toml").await);
    let asked = site.get(NUDGE).await;
    assert!(asked.text.contains("WHAT-IF") && asked.text.contains("class=\"was\""));
    let asked = cells(&asked);
    assert_ne!(before, asked);
    let well = site.file("ostrick.toml");
    let at = well.rfind("[section.mud]").expect("the last section has mud");
    let (head, tail) = well.split_at(at);
    let line = tail.lines().find(|line| line.starts_with("weight")).expect("a mud weight");
    std::fs::write(site.folder.join("ostrick.toml"), format!("{head}{}", tail.replacen(line, "weight = \"11.8 ppg\"", 1)))
        .expect("written");
    let rig = site.file("rigs/anvil-12.toml");
    let line = rig.lines().find(|line| line.starts_with("strung")).expect("the lines strung");
    std::fs::write(site.folder.join("rigs/anvil-12.toml"), rig.replacen(line, "strung = 8", 1)).expect("written");
    assert_eq!(asked, cells(&site.get("/sheet?well=ostrick.toml").await));
}

#[tokio::test]
async fn what_the_file_says_is_no_what_if() {
    let site = Site::new();
    let page = site.get("/sheet?well=ostrick.toml").await;
    let value = field(&page.text, "if.section[2].mud.weight").replace(' ', "+");
    let same = site.get(&format!("/sheet?well=ostrick.toml&if.section[2].mud.weight={value}")).await;
    assert_eq!(same.status, StatusCode::SEE_OTHER);
    assert_eq!(same.headers.get("location").expect("set"), "/sheet?well=ostrick.toml");
}

fn hidden(page: &str) -> Vec<(String, String)> {
    let form = page.split("action=\"/write\"").nth(1).expect("the form").split("</form>").next().expect("its end");
    let names = form.split("type=\"hidden\" name=\"").skip(1).map(|rest| rest.split('"').next().expect("a name").to_owned());
    names.filter(|name| name != "form_secret").map(|name| (name.clone(), field(form, &name))).collect()
}

async fn write(site: &Site, pairs: &[(String, String)]) -> Answer {
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(key, value)| (key.as_str(), value.as_str())).collect();
    site.post("/write", &pairs).await
}

#[tokio::test]
async fn writing_keeps_all_else_and_can_be_taken_back() {
    let site = Site::new();
    let (well, rig) = (site.file("ostrick.toml"), site.file("rigs/anvil-12.toml"));
    let page = site.get(&NUDGE.replace("/sheet", "/write")).await;
    assert!(page.text.contains("<ins>") && page.text.contains("<del>"));
    let pairs = hidden(&page.text);
    assert_eq!(site.file("ostrick.toml"), well, "looking writes nothing");
    assert_eq!(write(&site, &pairs).await.status, StatusCode::SEE_OTHER);
    let (new_well, new_rig) = (site.file("ostrick.toml"), site.file("rigs/anvil-12.toml"));
    for (before, after) in [(&well, &new_well), (&rig, &new_rig)] {
        let changed: Vec<(&str, &str)> = before.lines().zip(after.lines()).filter(|(a, b)| a != b).collect();
        assert_eq!(before.lines().count(), after.lines().count());
        assert_eq!(changed.len(), 1, "{changed:?}");
        // The comment of the line stays.
        let comment = |line: &str| line.find('#').map(|at| line[at..].to_owned());
        assert_eq!(comment(changed[0].0), comment(changed[0].1));
    }
    assert!(new_well.contains("\"11.8 ppg\"") && new_rig.contains("strung = 8"));
    assert_eq!(site.post("/undo", &[("well", "ostrick.toml")]).await.status, StatusCode::SEE_OTHER);
    assert_eq!((site.file("ostrick.toml"), site.file("rigs/anvil-12.toml")), (well, rig));
    let left: Vec<_> = std::fs::read_dir(&site.folder)
        .expect("listed")
        .flatten()
        .filter(|entry| entry.file_name().to_string_lossy().starts_with('.'))
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

#[tokio::test]
async fn a_file_that_somebody_else_changed_is_not_overwritten() {
    let site = Site::new();
    let page = site.get("/write?well=ostrick.toml&if.section[2].mud.weight=11.8+ppg").await;
    let pairs = hidden(&page.text);
    let theirs = format!("# a remark of somebody else\n{}", site.file("ostrick.toml"));
    std::fs::write(site.folder.join("ostrick.toml"), &theirs).expect("written");
    let answer = write(&site, &pairs).await;
    assert_eq!(answer.status, StatusCode::CONFLICT);
    assert_eq!(site.file("ostrick.toml"), theirs);
}

#[tokio::test]
async fn an_absent_entry_is_added_in_its_table() {
    let site = Site::new();
    let page = site.get("/write?well=ostrick.toml&if.section[1].tripping.pulling_speed=70+ft/min").await;
    let pairs = hidden(&page.text);
    assert_eq!(write(&site, &pairs).await.status, StatusCode::SEE_OTHER);
    let again = site.get("/inputs?well=ostrick.toml").await;
    assert_eq!(field(&again.text, "if.section[1].tripping.pulling_speed"), "70 ft/min");
}

#[tokio::test]
async fn a_change_that_makes_no_well_says_why() {
    let site = Site::new();
    for change in [
        "if.section[2].mud.weight=heavy",
        "if.section[2].mud.weight=900+ppg",
        "if.section[7].mud.weight=9+ppg",
        "if.rig.line.strung=7.5",
    ] {
        let page = site.get(&format!("/sheet?well=ostrick.toml&{change}")).await;
        assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY, "{change}");
        assert!(page.text.contains("error: ") || page.text.contains("role=\"alert\""), "{change}");
    }
}

#[tokio::test]
async fn several_stand_side_by_side() {
    let site = Site::new();
    let kept = "kept=if.section%5B2%5D.mud.weight%3D11.8%2Bppg&kept=if.section%5B2%5D.mud.weight%3D12.2%2Bppg";
    let page = site.get(&format!("/beside?well=ostrick.toml&{kept}")).await;
    assert_eq!(page.status, StatusCode::OK);
    assert!(page.text.contains("WHAT-IF 2") && page.text.contains("12.2 ppg") && page.text.contains("class=\"differs\""));
}

/// What is sent while a knob moves is a part of the whole page: the same sheet, without what comes when the knob rests.
#[tokio::test]
async fn law_a_moving_knob_sees_the_sheet_of_the_whole_page() {
    let site = Site::new();
    for change in ["if.section[2].mud.weight=11.8+ppg", "if.rig.line.strung=8"] {
        let at = |turning: &str| format!("/sheet?well=ostrick.toml{turning}&{change}");
        let rest = site.get(&at("")).await.text;
        let (step, drag) = (site.get(&at("&live=step")).await.text, site.get(&at("&live=drag")).await.text);
        let table = |page: &str| {
            let from = page.find("<table class=\"sheet\">").expect("a sheet");
            page[from..from + page[from..].find("</table>").expect("its end")].to_owned()
        };
        assert!(table(&rest).contains("class=\"was\""), "{change}");
        assert!(table(&rest) == table(&step) && table(&rest) == table(&drag), "{change}");
        let has = |page: &str| ["id=\"turn\"", "id=\"basis\"", "looking…"].map(|part| page.contains(part));
        assert_eq!(has(&rest), [true, true, false], "{change}");
        assert_eq!((has(&step)[..2].to_vec(), has(&drag)[..2].to_vec()), (vec![true, false], vec![false, false]), "{change}");
    }
}

/// Every step that the panel offers is a value that the file could hold. A seat may be refused, and only because a reading
/// that the file records was taken deeper than the section would then end.
#[tokio::test]
async fn law_every_step_of_every_knob_makes_a_well() {
    let site = Site::new();
    for well in ["ostrick.toml", "tolvane.toml"] {
        let page = site.get(&format!("/sheet?well={well}")).await;
        let steps: Vec<String> = page
            .text
            .split("class=\"nudge\" href=\"")
            .skip(1)
            .map(|rest| rest.split('"').next().expect("an address").replace("&amp;", "&"))
            .collect();
        assert!(steps.len() > 40, "{}", steps.len());
        for step in steps {
            let answer = site.get(&format!("{step}&live=step")).await;
            let deeper = step.contains("casing.shoe") && answer.text.contains("a slow rate was read below the section");
            assert!(answer.status == StatusCode::OK || deeper, "{step}\n{}", answer.text);
        }
    }
}
