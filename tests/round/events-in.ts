import ICAL from 'ical.js';

/** The entries of a calendar as an independent reader takes them, by day and name. */
export function eventsIn(ics: string) {
  const calendar = new ICAL.Component(ICAL.parse(ics) as ConstructorParameters<typeof ICAL.Component>[0]);
  return calendar
    .getAllSubcomponents('vevent')
    .map((component) => {
      const event = new ICAL.Event(component);
      return {
        uid: event.uid,
        sequence: event.sequence,
        day: event.startDate.toString(),
        end: event.endDate.toString(),
        summary: event.summary,
        description: event.description,
        place: event.location,
        status: String(component.getFirstPropertyValue('status')),
      };
    })
    .sort((a, b) => (a.day === b.day ? (a.summary < b.summary ? -1 : 1) : a.day < b.day ? -1 : 1));
}
