//! SHA-256 (FIPS 180-4) and the two ways its result is written: base64 in a content-security policy, hex in names.

/// First 32 bits of the fractional parts of the cube roots of the first 64 primes (FIPS 180-4, 4.2.2).
#[rustfmt::skip]
const K: [u32; 64] = [
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
];

/// First 32 bits of the fractional parts of the square roots of the first 8 primes (FIPS 180-4, 5.3.3).
const INITIAL: [u32; 8] = [
    0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19,
];

/// The SHA-256 digest of a message of whole bytes.
pub fn digest(message: &[u8]) -> [u8; 32] {
    let mut padded = message.to_vec();
    padded.push(0x80);
    // Eight bytes at the end of the last block hold the length.
    padded.resize((padded.len() + 8).next_multiple_of(64), 0);
    let length_at = padded.len() - 8;
    padded[length_at..].copy_from_slice(&(message.len() as u64 * 8).to_be_bytes());

    let mut state = INITIAL;
    for block in padded.chunks_exact(64) {
        compress(&mut state, block);
    }
    let mut bytes = [0; 32];
    for (four, word) in bytes.chunks_exact_mut(4).zip(state) {
        four.copy_from_slice(&word.to_be_bytes());
    }
    bytes
}

/// FIPS 180-4, 6.2.2.
fn compress(state: &mut [u32; 8], block: &[u8]) {
    let mut w = [0u32; 64];
    for (word, bytes) in w.iter_mut().zip(block.chunks_exact(4)) {
        *word = bytes.iter().fold(0, |word, &byte| word << 8 | u32::from(byte));
    }
    for t in 16..64 {
        let s0 = w[t - 15].rotate_right(7) ^ w[t - 15].rotate_right(18) ^ w[t - 15] >> 3;
        let s1 = w[t - 2].rotate_right(17) ^ w[t - 2].rotate_right(19) ^ w[t - 2] >> 10;
        w[t] = s1.wrapping_add(w[t - 7]).wrapping_add(s0).wrapping_add(w[t - 16]);
    }
    let [mut a, mut b, mut c, mut d, mut e, mut f, mut g, mut h] = *state;
    for t in 0..64 {
        let sum1 = e.rotate_right(6) ^ e.rotate_right(11) ^ e.rotate_right(25);
        let choice = e & f ^ !e & g;
        let t1 = h
            .wrapping_add(sum1)
            .wrapping_add(choice)
            .wrapping_add(K[t])
            .wrapping_add(w[t]);
        let sum0 = a.rotate_right(2) ^ a.rotate_right(13) ^ a.rotate_right(22);
        let majority = a & b ^ a & c ^ b & c;
        let t2 = sum0.wrapping_add(majority);
        (h, g, f, e, d, c, b, a) = (g, f, e, d.wrapping_add(t1), c, b, a, t1.wrapping_add(t2));
    }
    for (word, add) in state.iter_mut().zip([a, b, c, d, e, f, g, h]) {
        *word = word.wrapping_add(add);
    }
}

/// Lower-case hexadecimal.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Base64 with padding (RFC 4648, section 4).
pub fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let group = (0..3).fold(0, |group, at| {
            group << 8 | u32::from(three.get(at).copied().unwrap_or(0))
        });
        for at in 0..4 {
            let letter = LETTERS[(group >> (18 - 6 * at) & 63) as usize];
            text.push(if at <= three.len() { char::from(letter) } else { '=' });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::{base64, digest, hex};

    #[track_caller]
    fn check(message: &[u8], want: &str) {
        assert_eq!(hex(&digest(message)), want);
    }

    /// NIST, Examples with Intermediate Values for FIPS 180-4, SHA256: one block and two blocks. The empty message:
    /// NIST CAVP, SHA256ShortMsg.rsp, Len = 0. A million times `a`: FIPS 180-2, B.3.
    #[test]
    fn agrees_with_the_standards_examples() {
        check(b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        check(
            b"abc",
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        );
        check(
            b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        );
        check(
            &[b'a'; 1_000_000],
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
        );
    }

    /// RFC 4648, section 10.
    #[test]
    fn base64_agrees_with_its_rfc() {
        for (bytes, want) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(bytes.as_bytes()), want);
        }
    }
}
