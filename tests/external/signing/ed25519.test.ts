import { createHash, createPrivateKey, sign, verify } from 'node:crypto';
import { expect, test } from 'vitest';
import { fingerprintOf, keyObjectOf, publicKeyOf } from '../../../db/signing/public-key.ts';
import { signedMessage, signPack } from '../../../db/signing/signature.ts';

// RFC 8032, 7.1: TEST 1, TEST 2, TEST 3 and TEST 1024. Typed from a public transcription of the RFC, not from the RFC itself; the figures prove themselves, since a key, a message
// and a signature that do not belong together do not verify.
const vectors: readonly (readonly [test: string, secret: string, open: string, message: string, signature: string])[] = [
  [
    'TEST 1',
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    'TEST 2',
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'TEST 3',
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
  [
    'TEST 1024',
    'f5e5767cf153319517630f226876b86c8160cc583bc013744c6bf255f5cc0ee5',
    '278117fc144c72340f67d0f2316e8386ceffbf2b2428c9c51fef7c597f1d426e',
    [
      '08b8b2b733424243760fe426a4b54908632110a66c2f6591eabd3345e3e4eb98fa6e264bf09efe12ee50f8f54e9f77b1',
      'e355f6c50544e23fb1433ddf73be84d879de7c0046dc4996d9e773f4bc9efe5738829adb26c81b37c93a1b270b20329d',
      '658675fc6ea534e0810a4432826bf58c941efb65d57a338bbd2e26640f89ffbc1a858efcb8550ee3a5e1998bd177e93a',
      '7363c344fe6b199ee5d02e82d522c4feba15452f80288a821a579116ec6dad2b3b310da903401aa62100ab5d1a36553e',
      '06203b33890cc9b832f79ef80560ccb9a39ce767967ed628c6ad573cb116dbefefd75499da96bd68a8a97b928a8bbc10',
      '3b6621fcde2beca1231d206be6cd9ec7aff6f6c94fcd7204ed3455c68c83f4a41da4af2b74ef5c53f1d8ac70bdcb7ed1',
      '85ce81bd84359d44254d95629e9855a94a7c1958d1f8ada5d0532ed8a5aa3fb2d17ba70eb6248e594e1a2297acbbb39d',
      '502f1a8c6eb6f1ce22b3de1a1f40cc24554119a831a9aad6079cad88425de6bde1a9187ebb6092cf67bf2b13fd65f270',
      '88d78b7e883c8759d2c4f5c65adb7553878ad575f9fad878e80a0c9ba63bcbcc2732e69485bbc9c90bfbd62481d9089b',
      'eccf80cfe2df16a2cf65bd92dd597b0707e0917af48bbb75fed413d238f5555a7a569d80c3414a8d0859dc65a46128ba',
      'b27af87a71314f318c782b23ebfe808b82b0ce26401d2e22f04d83d1255dc51addd3b75a2b1ae0784504df543af8969b',
      'e3ea7082ff7fc9888c144da2af58429ec96031dbcad3dad9af0dcbaaaf268cb8fcffead94f3c7ca495e056a9b47acdb7',
      '51fb73e666c6c655ade8297297d07ad1ba5e43f1bca32301651339e22904cc8c42f58c30c04aafdb038dda0847dd988d',
      'cda6f3bfd15c4b4c4525004aa06eeff8ca61783aacec57fb3d1f92b0fe2fd1a85f6724517b65e614ad6808d6f6ee34df',
      'f7310fdc82aebfd904b01e1dc54b2927094b2db68d6f903b68401adebf5a7e08d78ff4ef5d63653a65040cf9bfd4aca7',
      '984a74d37145986780fc0b16ac451649de6188a7dbdf191f64b5fc5e2ab47b57f7f7276cd419c17a3ca8e1b939ae49e4',
      '88acba6b965610b5480109c8b17b80e1b7b750dfc7598d5d5011fd2dcc5600a32ef5b52a1ecc820e308aa342721aac09',
      '43bf6686b64b2579376504ccc493d97e6aed3fb0f9cd71a43dd497f01f17c0e2cb3797aa2a2f256656168e6c496afc5f',
      'b93246f6b1116398a346f1a641f3b041e989f7914f90cc2c7fff357876e506b50d334ba77c225bc307ba537152f3f161',
      '0e4eafe595f6d9d90d11faa933a15ef1369546868a7f3a45a96768d40fd9d03412c091c6315cf4fde7cb68606937380d',
      'b2eaaa707b4c4185c32eddcdd306705e4dc1ffc872eeee475a64dfac86aba41c0618983f8741c5ef68d3a101e8a3b8ca',
      'c60c905c15fc910840b94c00a0b9d0',
    ].join(''),
    '0aab4c900501b3e24d7cdf4663326a3a87df5e4843b2cbdb67cbf6e460fec350aa5371b1508f9f4528ecea23c436d94b5e8fcd4f681e30a6ac00a9704a188a03',
  ],
];

const hex = (text: string) => Buffer.from(text, 'hex');
/** RFC 8410, section 7: the DER of a private key is these 16 bytes and the 32 of the key. */
const secretKey = (secret: string) =>
  createPrivateKey({ key: Buffer.concat([hex('302e020100300506032b657004220420'), hex(secret)]), format: 'der', type: 'pkcs8' });

test.each(vectors)('[P15] %s of RFC 8032, 7.1: the key, the signature, and that it holds', (_, secret, open, message, signature) => {
  const key = secretKey(secret);
  expect(Buffer.from(publicKeyOf(key), 'base64').toString('hex')).toBe(open);
  expect(sign(null, hex(message), key).toString('hex')).toBe(signature);
  const known = keyObjectOf(publicKeyOf(key));
  expect(known !== null && verify(null, hex(message), known, hex(signature))).toBe(true);
});

test('[P15] a pack’s signature is that of its message by the same algorithm, and the message is as the format says', () => {
  const [, secret, open] = vectors[1] as (typeof vectors)[number];
  const at = '2026-03-04T12:00:00.000Z';
  const texts = new Map([
    ['pack.json', '{}\n'],
    ['sheets/ü-1.json', '[]\n'],
  ]);
  const signature = signPack({ id: 'small', edition: '2026-03-02.2' }, texts, {
    key: secretKey(secret),
    name: 'Saltmarsh Rotor & Fuel',
    at,
  });
  const sha = (text: string) => createHash('sha256').update(text).digest('hex');
  const message = `kinplate pack signature, version 1
pack small
edition 2026-03-02.2
signer Saltmarsh Rotor & Fuel
key ${hex(open).toString('base64')}
at 2026-03-04T12:00:00.000Z
files 2
${sha('{}\n')} 3 pack.json
${sha('[]\n')} 3 sheets/ü-1.json
`;
  expect(signedMessage(signature).toString('utf8')).toBe(message);
  expect(signature.signature).toBe(sign(null, Buffer.from(message), secretKey(secret)).toString('base64'));
});

test('[P15] a fingerprint is the first 96 bits of the SHA-256 of a line and the key, in sixteen signs', () => {
  const [, secret, open] = vectors[0] as (typeof vectors)[number];
  const hash = createHash('sha256')
    .update(Buffer.concat([Buffer.from('kinplate public key\n'), hex(open)]))
    .digest('hex');
  const groups = hash.slice(0, 24).replace(/[0-9a-f]/g, (digit) => '34679ACEFHKMRTWX'[Number.parseInt(digit, 16)] as string);
  expect(fingerprintOf(publicKeyOf(secretKey(secret))).replaceAll('-', '')).toBe(groups);
  expect(fingerprintOf(publicKeyOf(secretKey(secret)))).toMatch(/^([34679ACEFHKMRTWX]{4}-){5}[34679ACEFHKMRTWX]{4}$/);
});
