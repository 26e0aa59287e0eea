"""Alike: everyday English words that ask for much the same thing.

Owns a small general thesaurus, one group a line, the nearest of meaning together. It knows no
trade: words of the trade and their meanings are the lexicon's, and outrank it. A word may stand
in several groups; that two words share one says only that they often serve the same wish
("buy", "purchase"), not that they are equal. Written from general knowledge of English.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from assistant.routing.wording import stem, words_of

MARK = "~"      # opens the name of a group, so that it is no stem

GROUPS = """
get, obtain, receive, acquire, fetch, got, gotten
buy, purchase, bought, shop for
give, provide, supply, offer, hand over, gave, given
show, display, view, see, look at, pull up, bring up, shown
tell, inform, let me know, explain, describe, say, told, said
find, locate, search, look for, look up, track down, found, seek, hunt
need, require, necessary, must, have to, should, needed
needed, required, mandatory, compulsory, requirement
want, would like, wish, desire, care for
make, create, build, prepare, put together, produce, made
start, begin, commence, launch, initiate, started, began
stop, end, quit, halt, cease, finish, pause, done
cancel, call off, abort, undo, revoke, withdraw
change, alter, modify, adjust, edit, update, amend, revise, switch, convert
replace, substitute, swap, instead, alternative, exchange, in place of
fix, repair, mend, sort out, correct, resolve, solve
help, assist, aid, support, guide, assistance
use, utilize, employ, apply, usage
send, transmit, forward, mail, post, deliver, ship, sent
move, shift, transfer, relocate
remove, delete, erase, take off, get rid of, clear, wipe, scratch, take out, cross off, discard
add, include, put, insert, append, place
keep, hold, retain, save, store, preserve, kept
spoil, rot, go bad, go off, expire, stay good, safe to eat, last
try, attempt, test
check, verify, confirm, make sure, ensure, double check, see if
remember, recall, remind, reminder, forget, memo
think, believe, guess, suppose, reckon, opinion, thought
know, aware, understand, learn, find out, knowledge
like, love, enjoy, fond of, favorite, favourite, prefer
hate, dislike, can not stand
speak, talk, chat, converse, conversation
ask, question, inquire, query, wonder, curious
answer, reply, respond, response
call, phone, ring, dial, telephone
named, name, called, known as, go by, address as
write, compose, note, jot down, written
repeat, say again, again, once more, pardon, come again
hear, listen, heard
choose, pick, select, decide, choice
recommend, suggest, recommendation, suggestion, advise, advice, idea
allow, let, permit, allowed, may, okay to, able to
can, could, able, possible, is there a way
wait, hold on, delay, delayed, late
share, give out, pass on
improve, better, raise, build up, boost
function, operate, run, perform, work
turn on, switch on, activate, enable, power on, put on
turn off, switch off, deactivate, disable, shut off, shut down, power off
increase, raise, higher, turn up, bump up, boost, up, more, greater
decrease, reduce, lower, turn down, drop, down, less, low, little
connect, pair, sync, link, hook up, connection
set, setting, reset, default, configuration, preference, mode
clean, sweep, vacuum, mop, wash, tidy, dust
open, unlock, opened
close, shut, closed
block, freeze, lock, frozen, on hold, stop
declined, rejected, refused, denied, not accepted, turned down, did not go through
approve, accept, approved, accepted, confirmed, status, pending
apply, application, sign up, register, enroll, enrol, join
learn, teach, train, study, lesson
push, press, shove
pull, tug, drag
hit, strike, knock, bump
cut, slice, chop, snip
stick, glue, attach, fasten, bond
hang, suspend, dangle
break, broken, broke, damaged, snapped, ruined, cracked
bend, bent, fold, twist
carry, bring, take, haul
throw, toss, flip, fling
spin, turn, rotate, roll
cook, bake, roast, boil, grill, fry
eat, dine, dining, ate, eaten
drink, sip, beverage, thirsty
sleep, nap, rest, asleep
wake, wake up, get up, alarm
wear, dress, clothes, outfit
live, reside, dwell, living
die, dead, died, death
play, put on, start playing, playing
watch, look, observe, see
read, reading, went through
count, number, how many, tally
measure, size, dimension, gauge
compare, difference, versus, differ
happen, occur, take place, going on, happening
win, won, beat, victory
lose, lost, missing, misplaced, can not find
steal, stolen, stole, theft, robbed, thief
cheat, fraud, fraudulent, scam, suspicious
worry, worried, afraid, scared, anxious, concerned
agree, agreed, right, correct, true, exactly
greet, meet, introduce
invite, invitation, guest, visitor
celebrate, party, celebration
hello, hi, hey, greetings, howdy, good morning, good evening, good afternoon
goodbye, bye, see you, farewell, later, good night, take care
thanks, thank, thank you, appreciate, grateful, cheers
yes, yeah, yep, sure, affirmative, indeed, absolutely, definitely
no, nope, nah, negative
wrong, false, incorrect, not true, mistaken
maybe, perhaps, possibly, not sure, unsure, uncertain, do not know, no idea
please, kindly, would you mind
sorry, apologize, apologies, excuse
who, whose, which person, someone
you, yourself, your
robot, bot, machine, computer, artificial, human, real person
creator, maker, who made, built, programmed, designed, developed
how are you, how is it going, how do you feel, are you okay, how have you been
old, age, birthday, born, how old
from, origin, come from, grew up
hobby, pastime, free time, for fun, fun
pet, dog, cat, animal, puppy, kitten
child, kid, children, son, daughter
parent, mother, father, mom, dad
friend, buddy, pal, mate
boss, manager, supervisor, employer
person, people, man, woman, guy
work, job, office, employment, career, occupation, workplace
where, location, whereabouts, place, located, position
near, nearby, closest, nearest, around, local, in the area
far, distance, mile, how far
route, direction, way, path, navigate, how to get
map, navigation, chart
traffic, congestion, jam, rush hour
go, travel, head, went, gone, get to
drive, driving, commute, ride
arrive, arrival, land, get here, get there, reach, come
leave, depart, departure, set off
return, give back, bring back, back
trip, journey, vacation, holiday, travel, tour, getaway, visit
plane, flight, airplane, airline, fly, jet, aircraft
hotel, motel, inn, lodging, accommodation, place to stay
luggage, baggage, bag, suitcase
car, vehicle, auto, automobile, truck, van
taxi, cab, ride
bus, train, subway, metro, transit
boat, ship, ferry
bicycle, bike, cycle
house, home, apartment, residence
room, bedroom, kitchen, bathroom, hall
door, gate, entrance
store, shop, market, supermarket
city, town, village
country, nation, abroad, foreign, overseas, international
passport, visa, travel document
school, college, university, class
hospital, doctor, physician, nurse, medical, clinic
shot, vaccine, injection, vaccination, jab
sick, ill, unwell, disease
medicine, drug, pill, tablet
hurt, pain, ache, sore, injured
food, meal, dish, dinner, lunch, supper, breakfast, snack, cuisine
restaurant, diner, eatery, place to eat, cafe, bistro
recipe, instructions, directions, method, procedure, steps, process
ingredient, contents, made of, made with, component
calorie, nutrition, nutritional, healthy, health, nutritious, fat
taste, flavor, flavour, delicious
hungry, starving, appetite
groceries, grocery, shopping
phone, cell, mobile, cellphone, smartphone, handset, device
message, text, email, texting
picture, photo, image, photograph
song, music, tune, track, album
film, movie, video
loud, volume, sound, noise
quiet, silent, softer, whisper, mute
voice, accent, tone
light, lamp, lighting, bright
weather, forecast, rain, raining, snow, sunny, outside
hot, warm, heat, heated
cold, cool, chilly, freezing
temperature, degree, thermostat
wet, damp, moist, soaked
dry, drying, dried
time, clock, hour, what time
timezone, time zone, local time
timer, countdown, stopwatch
date, day, today, what day
now, currently, right now, at the moment, present, current, presently
when, what time, what day, how soon, what date
soon, next, upcoming, coming up
early, earlier, before, prior
late, later, after, following
last, latest, most recent, recent, recently, previous, past
always, every time, constantly
never, not once, not ever
how long, duration, length, how much time, take
often, frequent, how often, frequently, regularly
tomorrow, next day, day after
weekend, saturday, sunday
schedule, arrange, plan, set up, organize, appointment, calendar, agenda
meet, meeting, conference, appointment, gathering
event, plans, activity, occasion
reserve, book, reservation, booking
task, to do, chore, things to do, todo
list, lists, written down
cost, price, how much, fee, rate, charge, expense, expensive
cheap, inexpensive, affordable, low cost, discount
spend, spent, spending, expenditure, outgoings
earn, salary, wage, income, paycheck, earnings, pay
owe, due, debt, outstanding
lend, borrow, loan, mortgage
pay, settle, pay for, payment, paid
bill, invoice, statement, charges
money, cash, funds, dollar, savings
currency, exchange rate, euro, pound, yen
bank, banking, branch
balance, how much money, how much is in
account, accounts, checking
check, cheque, checkbook
card, credit card, debit card
transaction, purchase, activity
limit, maximum, max, cap, most
minimum, least, lowest, smallest
tax, taxes, duty
insurance, coverage, policy, insured, cover
benefit, perk, reward, points, bonus
interest, percent, percentage, rate
score, rating, grade, rank
review, feedback, rated, stars
retire, retirement, pension
time off, day off, days off, leave, vacation
order, ordered, ordering
delivery, package, parcel, shipment, shipping, tracking
document, form, paper, paperwork
password, passcode, pin, code
user, username, profile
private, secret, confidential
alert, warning, warn, danger, dangerous, unsafe, advisory
safe, safety, secure, protected
problem, issue, trouble, difficulty, error
reason, why, cause, how come
result, outcome, effect
amount, total, sum, quantity, altogether
add up, calculate, compute, math, plus, minus, times, divided by
part, piece, portion, section
whole, entire, complete, all
language, tongue, spanish, french, german, english, translate, translation
word, term, phrase, expression
meaning, define, definition, mean, means, significance
synonym, similar word, another word, thesaurus
spell, spelling, spelled, letters
joke, funny, laugh, humor, humour, hilarious
fact, trivia, interesting, tidbit
story, tale, history
news, headlines, current events
random, any, whichever
coin, heads or tails, toss
dice, die
sport, game, match, play
team, squad, club
gas, fuel, petrol, gasoline, diesel, tank
tire, tyre, wheel
oil, lubricant, engine oil
mileage, mpg, miles per gallon, fuel economy
plug, socket, adapter, outlet, voltage
good, great, nice, excellent, fine, wonderful, awesome
best, top, ideal, greatest
bad, poor, terrible, awful, horrible
big, large, huge
small, tiny, mini
quick, fast, rapid, quickly, faster, speed, hurry, speed up
slow, slower, slowly, slow down
easy, simple, straightforward
hard, difficult, tricky, tough
new, fresh, brand new
same, identical, equal
other, different, another
strong, sturdy, tough
weak, feeble, flimsy
heavy, weight, weigh
high, tall, height
long, lengthy
wide, broad, width
deep, depth
full, filled, complete
empty, vacant, nothing in
clear, transparent, see through
smooth, flat, even, level
rough, coarse, bumpy
sharp, pointed, keen
happy, glad, pleased, joy
sad, unhappy, upset, down
angry, mad, annoyed, cross
tired, exhausted, worn out
"""

_LONGEST = 4        # words in the longest entry looked for


class Alike:
    """The groups that the stems of a line stand in."""

    def __init__(self, lines: Iterable[str]) -> None:
        """lines  groups, one a line, words or short phrases parted by commas."""
        found: dict[tuple[str, ...], list[str]] = {}
        for number, line in enumerate(lines):
            name = f"{MARK}{number}"
            for entry in line.split(","):
                stems = tuple(stem(word) for word in words_of(entry))
                if 0 < len(stems) <= _LONGEST:
                    names = found.setdefault(stems, [])
                    if name not in names:
                        names.append(name)
        self.stems = frozenset(part for stems in found for part in stems)
        # By the first stem, the rest of each entry and its groups, longest first.
        self._entries: dict[str, list[tuple[list[str], list[str]]]] = {}
        for stems in sorted(found, key=len, reverse=True):
            self._entries.setdefault(stems[0], []).append((list(stems[1:]), found[stems]))

    @classmethod
    @cache
    def everyday(cls) -> Alike:
        """The groups of everyday English."""
        return cls(GROUPS.strip().splitlines())

    def read(self, stems: list[str]) -> tuple[dict[str, list[int]], list[str]]:
        """The groups that a row of stems names, with the places of the stems naming each; and the
        row with each word or phrase of a group put as its first group, the longest first.

        In that row "let me know" and "tell" are one part, so that their neighbours compare.
        """
        groups: dict[str, list[int]] = {}
        row: list[str] = []
        put = 0                     # the row stands for the stems before this place
        for start, first in enumerate(stems):
            chosen = first
            after = start + 1
            for rest, names in self._entries.get(first, ()):
                end = start + 1 + len(rest)
                if rest and stems[start + 1:end] != rest:
                    continue
                for name in names:
                    groups.setdefault(name, []).extend(range(start, end))
                if chosen is first:
                    chosen, after = names[0], end
            if start >= put:
                row.append(chosen)
                put = after
        return groups, row
