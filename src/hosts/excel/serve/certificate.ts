import { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import { generateCertificates, installCaCertificate } from 'office-addin-dev-certs';

/** Where the vendor's tool keeps a developer's certificates, so that its other tools find the same ones. */
export const CERTIFICATE_FOLDER = path.join(homedir(), '.office-addin-dev-certs');

const DAYS_VALID = 30;
const DAY = 86_400_000;

export interface Certificate {
  readonly cert: Buffer;
  readonly key: Buffer;
  /** The authority that a system must trust for the certificate to be accepted. */
  readonly authority: string;
}

/** The certificate for `https://localhost`, made where there is none or it is about to run out. */
export async function localhostCertificate(folder = CERTIFICATE_FOLDER): Promise<Certificate> {
  const file = (name: string): string => path.join(folder, name);
  const files = [file('ca.crt'), file('localhost.crt'), file('localhost.key')] as const;
  const [authority, cert, key] = files;
  const lasts = (name: string): boolean =>
    Date.parse(new X509Certificate(readFileSync(name)).validTo) > Date.now() + DAY;
  if (!files.every((name) => existsSync(name)) || !lasts(authority) || !lasts(cert)) {
    // The tool writes nothing where an old authority is left.
    for (const name of files) rmSync(name, { force: true });
    await generateCertificates(authority, cert, key, DAYS_VALID, ['localhost', '127.0.0.1']);
  }
  return { cert: readFileSync(cert), key: readFileSync(key), authority };
}

/** Asks the system to trust the authority; false where it could not be done and must be done by hand. */
export async function trust(authority: string): Promise<boolean> {
  if (process.platform !== 'win32' && process.platform !== 'darwin') return false;
  try {
    await installCaCertificate(authority);
    return true;
  } catch {
    return false;
  }
}

/** How a person makes their system trust the authority. */
export function trustSteps(authority: string): string {
  const by = {
    win32: `Double-click ${authority}, choose Install Certificate, Current User, and the store "Trusted Root Certification Authorities".`,
    darwin: `Double-click ${authority}, add it to the login keychain, open it there and set Trust to "Always Trust".`,
  } as Partial<Record<NodeJS.Platform, string>>;
  const other = `In your browser's settings open Certificates, Authorities, choose Import, pick ${authority} and let it identify websites.`;
  return `This system does not trust the development certificate yet. ${by[process.platform] ?? other} It is valid for ${DAYS_VALID} days and for this machine only; remove it when you no longer need it.`;
}
