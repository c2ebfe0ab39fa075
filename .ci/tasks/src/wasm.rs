//! Dropping the names of functions from a WebAssembly module: they are for debuggers and a third of its size.

/// The module without its custom section `name`. WebAssembly core specification 1.0, 5.5 (modules) and 7.4.1 (name
/// section): eight bytes of magic and version, then sections of id byte, length, contents; a custom section has id 0
/// and its contents begin with its name.
pub fn without_names(module: &[u8]) -> Result<Vec<u8>, String> {
    if !module.starts_with(b"\0asm\x01\0\0\0") {
        return Err("no WebAssembly module: it does not begin with the magic and version 1".into());
    }
    let mut kept = module[..8].to_vec();
    let mut at = 8;
    while at < module.len() {
        let (length, contents_at) = number(module, at + 1)?;
        let end = contents_at + length;
        let contents = module
            .get(contents_at..end)
            .ok_or_else(|| format!("section at byte {at} runs past the end"))?;
        if module[at] != 0 || custom_name(contents)? != b"name" {
            kept.extend(&module[at..end]);
        }
        at = end;
    }
    Ok(kept)
}

fn custom_name(contents: &[u8]) -> Result<&[u8], String> {
    let (length, at) = number(contents, 0)?;
    contents
        .get(at..at + length)
        .ok_or_else(|| "a custom section's name runs past its end".into())
}

/// An unsigned 32-bit number in LEB128 and where it ends (core specification 1.0, 5.2.2).
fn number(bytes: &[u8], start: usize) -> Result<(usize, usize), String> {
    let mut value = 0u64;
    for (at, shift) in (start..).zip([0, 7, 14, 21, 28]) {
        let byte = *bytes
            .get(at)
            .ok_or_else(|| format!("a number at byte {start} runs past the end"))?;
        value |= u64::from(byte & 0x7f) << shift;
        if byte & 0x80 == 0 {
            let value = u32::try_from(value).map_err(|_| format!("a number at byte {start} is beyond 32 bits"))?;
            return Ok((value as usize, at + 1));
        }
    }
    Err(format!("a number at byte {start} is longer than five bytes"))
}

#[cfg(test)]
mod tests {
    use super::{number, without_names};

    const HEAD: &[u8] = b"\0asm\x01\0\0\0";
    /// An empty type section, custom sections `name` and `naming`.
    const TYPES: &[u8] = &[1, 1, 0];
    const NAMES: &[u8] = b"\0\x07\x04name\x01\x00";
    const OTHER: &[u8] = b"\0\x07\x06naming";

    #[test]
    fn drops_the_name_section_and_nothing_else() {
        let module = [HEAD, TYPES, NAMES, OTHER].concat();
        assert_eq!(without_names(&module), Ok([HEAD, TYPES, OTHER].concat()));
        assert_eq!(without_names(HEAD), Ok(HEAD.to_vec()));
    }

    #[test]
    fn refuses_what_is_no_whole_module() {
        assert!(without_names(b"<!doctype html>").is_err());
        assert!(without_names(&[HEAD, &[1, 9, 0]].concat()).is_err());
        assert!(without_names(&[HEAD, &[0, 2, 9, 0]].concat()).is_err());
        assert!(without_names(&[HEAD, &[1, 0x80]].concat()).is_err());
    }

    /// 624485 = E5 8E 26: DWARF Debugging Information Format 4, appendix C lists the algorithm; the number is the
    /// customary example.
    #[test]
    fn reads_leb128() {
        assert_eq!(number(&[0xe5, 0x8e, 0x26], 0), Ok((624_485, 3)));
        assert_eq!(number(&[0xff, 0xff, 0xff, 0xff, 0x0f], 0), Ok((0xffff_ffff, 5)));
        assert!(number(&[0xff, 0xff, 0xff, 0xff, 0x1f], 0).is_err());
        assert!(number(&[0x80, 0x80, 0x80, 0x80, 0x80, 0], 0).is_err());
    }
}
