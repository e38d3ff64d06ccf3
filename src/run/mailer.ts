/** A mail server as the user set it, with what it takes to log in. Never printed whole. */
export interface MailServer {
  readonly host: string;
  readonly port: number;
  /** TLS from the first byte, or begun by STARTTLS; there is no third. */
  readonly tls: 'implicit' | 'starttls';
  readonly login?: { readonly user: string; readonly password: string };
  /** A certificate to trust besides those every program trusts, PEM. */
  readonly trust?: string;
}

/** What is handed to a server. */
export interface Envelope {
  readonly from: string;
  readonly to: readonly string[];
  readonly bytes: Buffer;
}

export type MailTroubleKind =
  | 'unknown-host'
  | 'nothing-listens'
  | 'no-answer'
  | 'no-tls'
  | 'certificate'
  | 'login'
  | 'login-wanted'
  | 'too-large'
  | 'sender-refused'
  | 'address-refused'
  | 'message-refused'
  | 'later'
  | 'cut-off';

/** Why a message did not go. */
export interface MailTrouble {
  readonly kind: MailTroubleKind;
  /** What the server, or the machine, said: one line, without a word of the login. */
  readonly said: string;
}

export type Delivery =
  /** The server has answered 250 to the whole message: it is its to deliver, to these. */
  | {
      readonly outcome: 'taken';
      readonly to: readonly string[];
      readonly refused: readonly { readonly address: string; readonly said: string }[];
    }
  /** It went to nobody. */
  | { readonly outcome: 'failed'; readonly trouble: MailTrouble }
  /** All of it was handed over and no answer came: nobody here can know. */
  | { readonly outcome: 'unknown'; readonly trouble: MailTrouble };

/** Hands a message to a server. Never throws for what a network or a server does. */
export type Mailer = (server: MailServer, envelope: Envelope) => Promise<Delivery>;
