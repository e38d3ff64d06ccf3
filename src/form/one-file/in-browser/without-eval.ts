import { z } from 'zod';

// The page forbids making code out of text; the checks need not try whether it does.
z.config({ jitless: true });
