//! A workshop's own logo, templates and wordings: used where they are whole, refused at their place
//! where they are not, within bounds of size, time and memory, and by `check` as by `render`.

use std::fs;

use crate::workshop::{PROFILE, Run, Workshop, closed, jpeg};

fn shop(more: &str) -> Workshop {
    let shop = Workshop::with_profile(&format!("{PROFILE}{more}\n"));
    shop.file("jobs/A-1/findings.yaml", closed("A-1"));
    shop
}

/// What `check` and `render` say of a shop: the same, or the test fails.
fn both(shop: &Workshop) -> Run {
    let check = shop.run(&["check", "jobs"]);
    let render = shop.run(&["render", "jobs", "--out", "out", "--force"]);
    assert_eq!((check.code, &check.err), (render.code, &render.err));
    render
}

const PAPER: &str = "#let paper(data) = {\n  set document(title: \"x\")\n  BODY\n  [= Hi]\n}\n";

#[test]
fn layouts_that_never_end_or_take_all_memory_cost_their_job_and_not_the_run() {
    for body in [
        "for i in range(9999) { for j in range(9999) { for k in range(9999) {} } }",
        "for i in range(1000000000) {}",
        "let s = \"x\"; for i in range(60) { s = s + s }",
    ] {
        let shop = shop("templates: t");
        shop.file("t/return-report.typ", PAPER.replace("BODY", body));
        let run = shop.run(&["check", "jobs"]);
        assert_eq!(run.code, 1, "{body}: {}", run.err);
        assert!(run.err.contains("template/"), "{body}: {}", run.err);
        assert!(run.err.contains("t/return-report.typ"), "{body}: {}", run.err);
    }
}

#[test]
fn a_wording_that_takes_all_memory_is_refused_before_any_job() {
    let shop = shop("templates: t");
    let bomb = "{% set n = namespace(x='x') %}{% for i in range(60) %}{% set n.x = n.x ~ n.x %}{% endfor %}{{ n.x }}";
    shop.file("t/wording/en/clauses.yaml", format!("lead-worst: \"{bomb}\"\n"));
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1, "{}", run.err);
    assert!(
        run.err.contains("error[template/")
            && (run.err.contains("clauses.yaml") || run.err.contains("workshop.yaml")),
        "{}",
        run.err
    );
}

#[test]
fn a_wording_file_that_nothing_reads_is_refused_with_the_nearest_name() {
    let shop = shop("templates: t");
    shop.file("t/wording/en/clause.yaml", "lead-worst: \"Our own words.\"\n");
    let run = shop.run(&["check", "jobs"]);
    assert_eq!(run.code, 1, "{}", run.err);
    assert!(run.err.contains("no paper reads a file `clause.yaml`"), "{}", run.err);
    assert!(run.err.contains("clauses.yaml"), "{}", run.err);
}

#[test]
fn house_layouts_and_wordings_that_are_whole_are_used() {
    let shop = shop("templates: t");
    shop.file("t/return-report.typ", PAPER.replace("BODY", "text(data.lead)"));
    shop.file(
        "t/wording/en/clauses.yaml",
        "lead-worst: \"Our own words on the {{ worst.plain }}.\"\n",
    );
    let run = both(&shop);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
}

#[test]
fn files_that_are_no_templates_harm_nobody() {
    let shop = shop("templates: t");
    for name in
        [".DS_Store", "Thumbs.db", "desktop.ini", "._return-report.typ", "notes.docx", ".git/x.typ"]
    {
        shop.file(&format!("t/{name}"), b"\0\0\0\x01Bud1\xff\xfe");
    }
    let run = both(&shop);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
}

#[cfg(unix)]
#[test]
fn links_loops_and_devices_among_the_templates_are_not_followed_far() {
    use std::os::unix::fs::symlink;
    let shop = shop("templates: t");
    fs::create_dir(shop.path("t")).unwrap();
    symlink(shop.path("t"), shop.path("t/again")).unwrap();
    let run = both(&shop);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    symlink("/dev/zero", shop.path("t/lead.jinja")).unwrap();
    let run = both(&shop);
    assert_eq!(run.code, 1);
    assert!(
        run.err.contains("t/lead.jinja") && run.err.contains("a pipe or a device"),
        "{}",
        run.err
    );
}

#[test]
fn a_language_that_lacks_words_is_refused_at_its_file() {
    let shop = shop("templates: t\nlanguage: xx");
    let en = concat!(env!("CARGO_MANIFEST_DIR"), "/report-templates/wording/en");
    for entry in fs::read_dir(en).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap();
        shop.file(&format!("t/wording/xx/{name}"), fs::read(&path).unwrap());
    }
    let run = both(&shop);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let labels = "t/wording/xx/labels.yaml";
    let whole = String::from_utf8(shop.read(labels)).unwrap();
    let came_in = whole.lines().find(|line| line.starts_with("came-in:")).unwrap();
    for (instead, code) in [
        ("", "template/missing-word"),
        ("came-in:", "template/missing-word"),
        ("came-in: '  '", "template/missing-word"),
        ("came-in: [a, b]", "template/wording"),
        ("came-in: Came in\ncame-ni: Came in", "template/unknown-word"),
        ("came-in: Came in {day}", "template/unknown-gap"),
        ("came-in: \"a\\eb\"", "sheet/control-character"),
        ("came-in: &a x\nb: *a", "sheet/anchor"),
    ] {
        shop.file(labels, whole.replace(came_in, instead));
        let run = both(&shop);
        assert_eq!(run.code, 1, "{instead}");
        assert!(run.err.contains(&format!("error[{code}]")), "{instead}: {}", run.err);
        assert!(run.err.contains(labels), "{instead}: {}", run.err);
    }
    shop.file(labels, &whole);
    fs::remove_file(shop.path("t/wording/xx/care.yaml")).unwrap();
    let run = both(&shop);
    assert_eq!(run.code, 1);
    assert!(
        run.err.contains("error[template/missing]") && run.err.contains("xx/care.yaml"),
        "{}",
        run.err
    );
}

#[test]
fn braces_and_aliases_in_a_wording_cost_no_time() {
    for text in [
        format!("a: {}", "{a: ".repeat(200_000)),
        format!("a: &a [{}]\nb: [{}]\n", "x,".repeat(20_000), "*a,".repeat(20_000)),
    ] {
        let shop = shop("templates: t");
        shop.file("t/wording/en/labels.yaml", text);
        let start = std::time::Instant::now();
        let run = shop.run(&["check", "jobs"]);
        assert_eq!(run.code, 1, "{}", run.err);
        // A bound, not a measurement.
        assert!(start.elapsed().as_secs() < 14, "took {:?}", start.elapsed());
        assert!(run.err.contains("labels.yaml"), "{}", run.err);
    }
}

#[test]
fn a_logo_that_is_no_whole_picture_is_refused_where_it_is_named() {
    let whole = jpeg(300, 100, 1);
    let small = jpeg(30, 10, 1);
    let huge = [small.as_slice(), &vec![0; 2 << 20]].concat();
    let mut many = small.clone();
    // The size in the frame's head is what a picture says of itself: 2000 rows of 2100 pixels.
    let frame = many.windows(2).position(|two| two == [0xff, 0xc0]).unwrap();
    many[frame + 5..frame + 9].copy_from_slice(&[0x07, 0xd0, 0x08, 0x34]);
    let svg = |size: &str| {
        format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {size}><rect width=\"9\" height=\"9\"/></svg>").into_bytes()
    };
    let mut bomb = String::from(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"><g id=\"a0\"><rect width=\"1\" height=\"1\"/></g>",
    );
    for n in 0..40 {
        bomb += &format!("<g id=\"a{}\"><use href=\"#a{n}\"/><use href=\"#a{n}\"/></g>", n + 1);
    }
    bomb += "<use href=\"#a40\"/></svg>";
    for (name, bytes, words) in [
        ("logo.jpg", whole[..whole.len() / 2].to_vec(), "damaged or cut short"),
        ("logo.jpg", huge, "larger than 2 MB"),
        ("logo.jpg", many, "at most 4 million"),
        ("logo.png", whole.clone(), "not what its ending says"),
        ("logo.gif", whole.clone(), "its ending is none of"),
        ("logo.svg", svg("width=\"0\" height=\"0\""), "logo.svg"),
        ("logo.svg", b"<svg".to_vec(), "logo.svg"),
        ("logo.svg", bomb.into_bytes(), "logo.svg"),
    ] {
        let shop = shop(&format!("logo: {name}"));
        shop.file(name, bytes);
        let run = both(&shop);
        assert_eq!(run.code, 1, "{words}");
        assert!(
            run.err.contains("error[sheet/logo]") && run.err.contains(words),
            "{words}: {}",
            run.err
        );
        assert!(run.err.contains("workshop.yaml:"), "{words}: {}", run.err);
    }
    for (name, bytes) in [("logo.jpg", whole), ("logo.svg", svg("width=\"9\" height=\"9\""))] {
        let shop = shop(&format!("logo: {name}"));
        shop.file(name, bytes);
        let run = both(&shop);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{name}");
    }
}

#[cfg(unix)]
#[test]
fn a_logo_that_is_a_device_or_a_folder_is_refused_unread() {
    let at = shop("logo: logo.svg");
    std::os::unix::fs::symlink("/dev/zero", at.path("logo.svg")).unwrap();
    let run = both(&at);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("a pipe or a device"), "{}", run.err);
    let at = shop("logo: logo.svg");
    fs::create_dir(at.path("logo.svg")).unwrap();
    assert!(both(&at).err.contains("it is a folder"));
}
