//! The EXIF block that a phone would write.
//!
//! In: the facts of one exposure. Out: the bytes of a TIFF structure, without the `Exif` mark.
//! Nothing is read here.

/// Facts of one exposure.
#[derive(Clone, Copy)]
pub struct Exposure {
    /// Local time as `2026:03:02 10:41:07`.
    pub taken: &'static str,
    /// Zone as `+00:00`; phones with the zone unknown write none.
    pub offset: Option<&'static str>,
    /// Thousandths of a second.
    pub thousandth: u16,
    /// EXIF orientation, 1 to 8.
    pub orientation: u16,
    /// Latitude north and longitude east in degrees.
    pub position: Option<(f64, f64)>,
    /// Serial number of the camera.
    pub serial: Option<&'static str>,
}

enum Value {
    Text(String),
    Short(u16),
    Long(u32),
    Bytes(Vec<u8>),
    Ratios(Vec<(u32, u32)>),
}

/// Builds the block.
pub fn block(e: &Exposure) -> Vec<u8> {
    let text = |s: &str| Value::Text(s.to_owned());
    let mut main = vec![
        (0x010f, text("Lumen & Oak")),
        (0x0110, text("LO-7 phone")),
        (0x0112, Value::Short(e.orientation)),
        (0x011a, Value::Ratios(vec![(72, 1)])),
        (0x011b, Value::Ratios(vec![(72, 1)])),
        (0x0128, Value::Short(2)),
        (0x0132, text(e.taken)),
        (0x8769, Value::Long(0)),
    ];
    let mut shot = vec![
        (0x829a, Value::Ratios(vec![(1, 100 + u32::from(e.thousandth % 7) * 20)])),
        (0x829d, Value::Ratios(vec![(18, 10)])),
        (0x8827, Value::Short(100 + e.thousandth % 5 * 40)),
        (0x9000, Value::Bytes(b"0232".to_vec())),
        (0x9003, text(e.taken)),
        (0x9004, text(e.taken)),
    ];
    if let Some(offset) = e.offset {
        shot.push((0x9011, text(offset)));
    }
    shot.push((0x920a, Value::Ratios(vec![(54, 10)])));
    shot.push((0x9291, text(&format!("{:03}", e.thousandth))));
    shot.push((0xa001, Value::Short(1)));
    if let Some(serial) = e.serial {
        shot.push((0xa431, text(serial)));
    }
    let mut place = Vec::new();
    if let Some((north, east)) = e.position {
        main.push((0x8825, Value::Long(0)));
        place = vec![
            (0x0000, Value::Bytes(vec![2, 3, 0, 0])),
            (0x0001, text(if north < 0.0 { "S" } else { "N" })),
            (0x0002, Value::Ratios(degrees(north))),
            (0x0003, text(if east < 0.0 { "W" } else { "E" })),
            (0x0004, Value::Ratios(degrees(east))),
        ];
    }
    let shot_at = 8 + size(&main);
    let place_at = shot_at + size(&shot);
    for (tag, value) in &mut main {
        match *tag {
            0x8769 => *value = Value::Long(shot_at),
            0x8825 => *value = Value::Long(place_at),
            _ => {}
        }
    }
    let mut out = b"II\x2a\x00\x08\x00\x00\x00".to_vec();
    write(&mut out, &main);
    write(&mut out, &shot);
    if !place.is_empty() {
        write(&mut out, &place);
    }
    out
}

fn degrees(angle: f64) -> Vec<(u32, u32)> {
    let hundredths = (angle.abs() * 360_000.0).round() as u32;
    let (whole, rest) = (hundredths / 360_000, hundredths % 360_000);
    vec![(whole, 1), (rest / 6000, 1), (rest % 6000, 100)]
}

fn payload(value: &Value) -> (u16, u32, Vec<u8>) {
    match value {
        Value::Text(s) => {
            let mut bytes = s.clone().into_bytes();
            bytes.push(0);
            (2, bytes.len() as u32, bytes)
        }
        Value::Short(n) => (3, 1, n.to_le_bytes().to_vec()),
        Value::Long(n) => (4, 1, n.to_le_bytes().to_vec()),
        Value::Bytes(b) => {
            // Versions: four plain bytes, type 1 in the position block and 7 elsewhere.
            let kind = if b.first() == Some(&2) { 1 } else { 7 };
            (kind, b.len() as u32, b.clone())
        }
        Value::Ratios(list) => {
            let mut bytes = Vec::new();
            for (a, b) in list {
                bytes.extend_from_slice(&a.to_le_bytes());
                bytes.extend_from_slice(&b.to_le_bytes());
            }
            (5, list.len() as u32, bytes)
        }
    }
}

fn size(entries: &[(u16, Value)]) -> u32 {
    let outside: usize = entries
        .iter()
        .map(|(_, value)| payload(value).2.len())
        .filter(|&len| len > 4)
        .map(|len| len + len % 2)
        .sum();
    (2 + entries.len() * 12 + 4 + outside) as u32
}

fn write(out: &mut Vec<u8>, entries: &[(u16, Value)]) {
    let mut spill_at = (out.len() + 2 + entries.len() * 12 + 4) as u32;
    let mut spill = Vec::new();
    out.extend_from_slice(&(entries.len() as u16).to_le_bytes());
    for (tag, value) in entries {
        let (kind, count, mut bytes) = payload(value);
        out.extend_from_slice(&tag.to_le_bytes());
        out.extend_from_slice(&kind.to_le_bytes());
        out.extend_from_slice(&count.to_le_bytes());
        if bytes.len() <= 4 {
            bytes.resize(4, 0);
            out.extend_from_slice(&bytes);
        } else {
            if bytes.len() % 2 == 1 {
                bytes.push(0);
            }
            out.extend_from_slice(&spill_at.to_le_bytes());
            spill_at += bytes.len() as u32;
            spill.extend_from_slice(&bytes);
        }
    }
    out.extend_from_slice(&0u32.to_le_bytes());
    out.extend_from_slice(&spill);
}
