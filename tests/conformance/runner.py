"""Walks the conformance vectors: an example of a walker that uses nothing but Python's standard library.

Use: python3 runner.py [FOLDER]. It prints one line for each walk that goes wrong, then how many went right; the status is 1 if any went wrong.
It follows language/walking.md and shares no code with the player. The build is known from the beginning, so options are never asked for.
"""

import json
import math
import sys
from fractions import Fraction
from pathlib import Path


class Refused(Exception):
    """A document that is not walked, or an answer that is not taken."""


# Documents


def load(document):
    """Looks at what a walk hangs on. A whole check is that of the schema, and of every id as it is said there."""
    if document.get('format') != 'halfsplit-tree' or not document.get('formatVersion', '').startswith('1.'):
        raise Refused('not a document of version 1')
    tests = {test['id']: {outcome['id'] for outcome in test['outcomes']} for test in document['equipment']['tests']}
    gates = {gate['id'] for gate in document['equipment']['gates']}
    procedures = {procedure['id'] for procedure in document['procedures']}
    if not document['tree']['steps']:
        raise Refused('no step')
    for owner in [document['tree'], *document['procedures']]:
        ends = [end for kind in ('conclusions', 'referrals', 'results') for end in owner.get(kind, [])]
        names = [one['id'] for one in owner['steps'] + ends]
        if len(set(names)) < len(names):
            raise Refused('a name twice')
        for step in owner['steps']:
            for statement in step['statements']:
                check(statement, set(names), tests, gates, procedures, 'about' in owner)
    return document


def check(statement, names, tests, gates, procedures, has_subject):
    """Every place, test, outcome, gate and procedure of a statement is there."""
    ways = [*statement.get('branches', []), statement]
    if any(way.get('to', way.get('cannotBeDone')) not in names | {None} for way in ways):
        raise Refused('a way that leads nowhere')
    for test in statement.get('tests', []) + [statement[key] for key in ('test',) if key in statement]:
        if has_subject and (test == 'it' or test.startswith('it.')):
            continue
        if test not in tests:
            raise Refused('no such test')
        if any(not set(branch.get('outcomes', [])) <= tests[test] for branch in statement.get('branches', [])):
            raise Refused('no such outcome')
    if statement.get('gate', None) not in gates | {None} or statement.get('procedure', None) not in procedures | {None}:
        raise Refused('no such gate or procedure')


# Units


PREFIXES = {'G': 9, 'M': 6, 'k': 3, 'h': 2, 'd': -1, 'c': -2, 'm': -3, 'u': -6, 'n': -9, 'p': -12}


def number(value):
    """The decimal that is written, exactly."""
    return Fraction(repr(value))


class Units:
    """The units of a document."""

    def __init__(self, document):
        self.scales = {'1': ('ratio', Fraction(1), Fraction(0))}
        for unit in document.get('units', []):
            size = number(unit['factor']) / number(unit.get('divisor', 1))
            self.scales[unit['code']] = (unit['dimension'], size, number(unit.get('offset', 0)))

    def scale(self, code):
        if code in self.scales:
            return self.scales[code]
        plain = self.scales.get(code[1:])
        if not plain or code[:1] not in PREFIXES or plain[2] != 0 or not code.isalpha():
            return None
        return (plain[0], plain[1] * Fraction(10) ** PREFIXES[code[0]], Fraction(0))

    def coherent(self, value, code, difference=False):
        """What it measures, and the value in units of the SI."""
        scale = self.scale(code)
        if not scale:
            return (f'unit {code}', number(value))
        dimension, factor, offset = scale
        return (dimension, (number(value) + (0 if difference else offset)) * factor)

    def quantity(self, quantity, difference=False):
        return self.coherent(quantity['value'], quantity['unit'], difference)[1]


def rounded(value):
    """12 significant digits of what was computed with logarithms, powers or a search."""
    return Fraction(f'{value:.11e}') if math.isfinite(value) else None


# Tables and curves


ZERO_CELSIUS = Fraction('273.15')
PLATINUM = [Fraction(1), Fraction('3.9083e-3'), Fraction('-5.775e-7')]
PLATINUM_COLD = PLATINUM + [Fraction('4.183e-10'), Fraction('-4.183e-12')]
# NIST ITS-90, type K, in millivolts; the other types are looked up in the same way, and no vector here needs them.
TYPE_K_COLD = '0 .039450128025 .23622373598e-4 -.32858906784e-6 -.49904828777e-8 -.67509059173e-10 -.57410327428e-12 ' \
    '-.31088872894e-14 -.10451609365e-16 -.19889266878e-19 -.16322697486e-22'
TYPE_K_WARM = '-.17600413686e-1 .38921204975e-1 .18558770032e-4 -.99457592874e-7 .31840945719e-9 -.56072844889e-12 ' \
    '.56075059059e-15 -.32020720003e-18 .97151147152e-22 -.12104721275e-25'


def polynomial(coefficients, argument):
    result = Fraction(0)
    for coefficient in reversed(coefficients):
        result = result * argument + coefficient
    return result


def search(function, low, high, wanted):
    """The argument at which a rising function reaches a value; None where it does not."""
    slack = abs(wanted) * 1e-12
    if not function(low) <= wanted + slack or not function(high) >= wanted - slack:
        return None
    while low < (low + high) / 2 < high:
        middle = (low + high) / 2
        if function(middle) < wanted:
            low = middle
        else:
            high = middle
    return high


def type_k(celsius):
    coefficients = [Fraction(text) for text in (TYPE_K_COLD if celsius <= 0 else TYPE_K_WARM).split()]
    bump = 0.1185976 * math.exp(-1.183432e-4 * (celsius - 126.9686) ** 2) if celsius > 0 else 0
    return (float(polynomial(coefficients, Fraction(repr(celsius)))) + bump) / 1000


def law_value(law, argument, backward, units):
    """What a law gives; the input comes with it, for the limits."""
    kind = law['law']
    kelvins = lambda celsius: None if celsius is None else rounded(celsius + 273.15)
    if kind == 'platinum':
        at_zero = units.quantity(law['atZero'])
        ratio = lambda celsius: polynomial(PLATINUM_COLD if celsius < 0 else PLATINUM, celsius)
        if backward:
            wanted = float(argument / at_zero)
            return kelvins(search(lambda celsius: float(ratio(Fraction(repr(celsius)))), -200.0, 850.0, wanted))
        return at_zero * ratio(argument - ZERO_CELSIUS) if -200 <= argument - ZERO_CELSIUS <= 850 else None
    if kind == 'ntc':
        resistance, temperature = float(units.quantity(law['resistance'])), float(units.quantity(law['temperature']))
        beta = float(units.quantity(law['beta'], True))
        if backward:
            return rounded(1 / (1 / temperature + math.log(float(argument) / resistance) / beta))
        return rounded(resistance * math.exp(beta * (1 / float(argument) - 1 / temperature)))
    if kind == 'steinhart-hart':
        a, b, c = (law[key]['value'] for key in 'abc')
        rise = lambda logarithm: a + b * logarithm + c * logarithm**3
        if backward:
            return rounded(1 / rise(math.log(float(argument))))
        logarithm = search(rise, -1000.0, 1000.0, 1 / float(argument))
        return None if logarithm is None else rounded(math.exp(logarithm))
    if kind == 'thermocouple':
        if law['letter'] != 'K':
            raise Refused('this example knows type K only')
        if backward:
            return kelvins(search(type_k, -270.0, 1372.0, float(argument)))
        return rounded(type_k(float(argument - ZERO_CELSIUS)))
    if kind == 'winding':
        constant = number(law['constant']['value'])
        slope = units.quantity(law['resistance']) / (units.quantity(law['temperature']) - ZERO_CELSIUS + constant)
        return argument / slope - constant + ZERO_CELSIUS if backward else (argument - ZERO_CELSIUS + constant) * slope
    low, high = units.quantity(law['low']), units.quantity(law['high'])
    current = argument if backward else Fraction(4, 1000) + (argument - low) / (high - low) * Fraction(16, 1000)
    if not Fraction(38, 10000) <= current <= Fraction(205, 10000):
        return None
    return low + (current - Fraction(4, 1000)) / Fraction(16, 1000) * (high - low) if backward else current


def look_up(table, argument, backward, units):
    """What a table or a curve gives; None where it gives nothing."""
    if 'law' in table:
        value = law_value(table['law'], argument, backward, units)
        given = value if backward else argument
        slack = Fraction(1, 10**9)
        if value is None or 'from' in table and given < units.quantity(table['from']) - slack:
            return None
        return None if 'to' in table and given > units.quantity(table['to']) + slack else value
    is_difference = {side: 'difference' in table[side].get('modes', []) for side in ('input', 'output')}
    rows = [tuple(units.quantity(row[side], is_difference[side]) for side in ('input', 'output')) for row in table['rows']]
    own, other = (1, 0) if backward else (0, 1)
    for first, second in zip(rows, rows[1:]):
        if (argument - first[own]) * (argument - second[own]) > 0:
            continue
        if table['interpolation'] == 'linear':
            return first[other] + (argument - first[own]) / (second[own] - first[own]) * (second[other] - first[other])
        whole = math.log(float(second[1]) / float(first[1]))
        if backward:
            share = math.log(float(argument) / float(first[1])) / whole
            return rounded(float(first[0]) + share * float(second[0] - first[0]))
        return rounded(float(first[1]) * math.exp(float((argument - first[0]) / (second[0] - first[0])) * whole))
    return None


# Walking


class Walker:
    """One session."""

    def __init__(self, document, build):
        self.document = load(document)
        self.units = Units(document)
        self.equipment = equipment = document['equipment']
        self.tests = {test['id']: test for test in equipment['tests']}
        self.gates = {gate['id']: gate for gate in equipment['gates']}
        self.zones = {zone['id']: zone for zone in equipment['zones']}
        self.hazards = {hazard['id']: hazard for hazard in equipment['hazards']}
        self.supplies = {supply['id']: supply for supply in equipment['supplies']}
        self.parts = {part['id']: part for part in equipment['parts'] + equipment['supplies']}
        self.conditions = {condition['id']: condition for condition in equipment['conditions']}
        self.tables = {table['id']: table for table in equipment['tables'] + equipment['curves']}
        self.procedures = {procedure['id']: procedure for procedure in document['procedures']}
        self.build = set(build) | set(document.get('build', []))
        self.values, self.closed, self.safe, self.readings = {}, [], set(), {}
        self.history = []
        self.begin()

    def begin(self):
        self.place = ('stuck',)
        if self.holds(self.document['tree']):
            self.enter([(self.document['tree'], None, None)], self.document['tree']['steps'][0]['id'])
            self.go_on()

    # Builds and states

    def holds(self, guarded):
        return self.guard(guarded.get('guard')) if guarded else False

    def guard(self, guard):
        if guard is None:
            return True
        if 'choice' in guard:
            return guard['choice'] in self.build
        if 'not' in guard:
            return not self.guard(guard['not'])
        if 'all' in guard:
            return all(self.guard(one) for one in guard['all'])
        return any(self.guard(one) for one in guard['any'])

    def value(self, condition):
        declared = self.conditions[condition]
        return self.values.get(condition, declared['values'][0]['id']) if self.holds(declared) else None

    def hazard(self, energy):
        return self.supplies.get(energy, {}).get('carries', energy)

    def isolated(self, hazard):
        if hazard in self.hazards and not self.holds(self.hazards[hazard]) or hazard in self.safe:
            return True
        controls = [control for gate in self.closed for control in self.gates[gate].get('controls', [])]
        return any(self.hazard(one['hazard']) == hazard and self.holds(one) for one in controls)

    def state(self, state, zones=()):
        """True, False, or None where it hangs on a flow."""
        if 'condition' in state:
            return self.value(state['condition']) == state['value']
        if 'isolated' in state:
            return self.isolated(self.hazard(state['isolated']))
        if 'allIsolated' in state:
            return self.every([self.zone(zone) for zone in zones])
        if 'flowing' in state:
            return None
        if 'not' in state:
            operand = self.state(state['not'], zones)
            return None if operand is None else not operand
        if 'all' in state:
            return self.every([self.state(one, zones) for one in state['all']])
        results = [self.state(one, zones) for one in state['any']]
        return True if True in results else None if None in results else False

    @staticmethod
    def every(results):
        return False if False in results else None if None in results else True

    def zone(self, zone):
        declared = self.zones[zone]
        if not self.holds(declared):
            return True
        results = []
        for exposure in declared.get('exposures', []):
            if self.holds(exposure):
                inside = self.state(exposure['when'], [zone]) if 'when' in exposure else True
                is_well = inside is False or self.isolated(self.hazard(exposure['hazard']))
                results.append(True if is_well else None if inside is None else False)
        return self.every(results)

    def set_all(self, settings):
        for setting in settings or []:
            if self.holds(self.conditions[setting['condition']]):
                self.values[setting['condition']] = setting['value']

    def force(self, state, zones):
        if 'condition' in state:
            self.set_all([state])
        elif 'all' in state:
            for one in state['all']:
                self.force(one, zones)
        elif 'any' in state:
            if self.state(state, zones) is not True:
                self.force(state['any'][0], zones)
        elif 'not' in state and 'condition' in state['not'] and self.state(state['not']) is True:
            unwanted = state['not']
            others = [one['id'] for one in self.conditions[unwanted['condition']]['values'] if one['id'] != unwanted['value']]
            self.set_all([{'condition': unwanted['condition'], 'value': other} for other in others[:1]])
        elif 'isolated' in state and not self.state(state):
            self.safe.add(self.hazard(state['isolated']))
        elif 'allIsolated' in state and self.state(state, zones) is not True:
            for zone in zones:
                self.safe |= {self.hazard(one['hazard']) for one in self.zones[zone].get('exposures', [])}

    # Tests

    def zones_of(self, test):
        return [one['zone'] for one in test.get('zones', []) if self.holds(one)]

    def prepare(self, test):
        for need in test.get('needs', []):
            if self.holds(need):
                self.force(need['state'], self.zones_of(test))

    def method(self, test):
        for method in test['methods']:
            if method['type'] == 'calculate' or method['type'] == 'measure' and self.holds(method):
                return method
        return None

    def judge(self, test, value):
        """The outcome that takes a value; None where there is none, or several."""
        difference = 'difference' in self.method(test).get('modes', [])
        entries = []
        for outcome in test['outcomes']:
            for case in outcome['cases']:
                holds = self.state(case['when'], self.zones_of(test)) if 'when' in case else True
                if self.holds(case) and holds is not False:
                    entries.append((outcome, case.get('bands', []), holds))
        sure = self.takers([entry for entry in entries if entry[2]], value, difference)
        takers = sure if len(sure) == 1 else self.takers(entries, value, difference)
        return takers.pop() if len(takers) == 1 else None

    def takers(self, entries, value, difference):
        with_stretches = [(outcome, bands, self.stretches(bands, difference)) for outcome, bands, _ in entries]
        banded = {outcome['id'] for outcome, _, stretches in with_stretches if any(within(value, one) for one in stretches)}
        if banded:
            return banded
        normal = [one for one in with_stretches if one[0].get('healthy') and any('otherwise' not in band for band in one[1])]
        beside = {
            side: bool(normal) and all(one[2] and all(lies(value, stretch, side) for stretch in one[2]) for one in normal)
            for side in ('below', 'above')
        }
        sided = {one[0]['id'] for one in with_stretches if any(beside.get(band.get('otherwise')) for band in one[1])}
        rest = {one[0]['id'] for one in with_stretches if any(band.get('otherwise') == 'any' for band in one[1])}
        return sided or rest

    def stretches(self, bands, difference):
        found = []
        for band in bands:
            if 'table' in band:
                found += self.around(band)
            elif 'unit' in band:
                ends = [band.get(side) for side in ('low', 'high')]
                values = [end and (self.units.coherent(end['value'], band['unit'], difference)[1], end['closed']) for end in ends]
                found.append(values)
        return found

    def around(self, band):
        argument = self.readings.get(self.meant(band['input']))
        center = None if argument is None else look_up(self.tables[band['table']], argument, band.get('backward'), self.units)
        if center is None:
            return []
        spread = Fraction(0)
        if 'tolerance' in band:
            dimension, size = self.units.coherent(band['tolerance']['value'], band['tolerance']['unit'], True)
            spread = abs(center * size) if dimension == 'ratio' else size
        return [[(center - spread, True), (center + spread, True)]]

    def read(self, test, answer):
        """A reading in units of the SI."""
        method = self.method(test)
        if not method:
            raise Refused('no number is asked for')
        difference = 'difference' in method.get('modes', [])
        dimension, value = self.units.coherent(answer['reading'], answer['unit'], difference)
        bands = [band for outcome in test['outcomes'] for case in outcome['cases'] for band in case.get('bands', [])]
        expected = {self.units.coherent(0, band['unit'])[0] for band in bands if 'unit' in band}
        if expected and dimension not in expected:
            raise Refused('another dimension')
        return value

    # Calculations

    def calculated(self, test):
        method = self.method(test)
        if not method or method['type'] != 'calculate':
            return None
        wanted = 'difference' if 'difference' in method.get('modes', []) else 'point'
        natures = self.natures(method['expression'])
        return self.work_out(method['expression'], wanted if wanted in natures else (natures or [wanted])[0])

    def natures(self, part):
        """Whether a value counts from the zero of its scale, or is a difference; for a constant both can be."""
        if 'constant' in part:
            return ['point', 'difference']
        if 'reading' in part:
            method = next((one for one in self.tests[self.meant(part['reading'])]['methods'] if 'quantity' in one), {})
            return ['difference' if 'difference' in method.get('modes', []) else 'point']
        if 'table' in part:
            return ['difference' if self.side_is_difference(part, not part.get('backward')) else 'point']
        if 'function' in part:
            if part['function'] in ('deviation', 'unbalance'):
                return ['difference']
            return self.common(part['arguments'])
        if part['operator'] in '*/':
            return ['difference']
        return [wanted for wanted in ('point', 'difference') if self.sides(part, wanted)]

    def common(self, parts):
        natures = [self.natures(one) for one in parts]
        return [one for one in natures[0] if all(one in others for others in natures)]

    def side_is_difference(self, part, is_output):
        table = self.tables[part['table']]
        return 'difference' in table.get('output' if is_output else 'input', {}).get('modes', [])

    def sides(self, part, wanted):
        for left in self.natures(part['left']):
            for right in self.natures(part['right']):
                if part['operator'] == '-':
                    result = 'difference' if left == right else 'point' if left == 'point' else None
                else:
                    result = None if left == right == 'point' else 'difference' if left == right else 'point'
                if result == wanted:
                    return left, right
        return None

    def work_out(self, part, nature):
        if 'constant' in part:
            return self.units.quantity(part['constant'], nature == 'difference')
        if 'reading' in part:
            return self.readings.get(self.meant(part['reading']))
        if 'table' in part:
            inside = 'difference' if self.side_is_difference(part, bool(part.get('backward'))) else 'point'
            argument = self.work_out(part['argument'], inside)
            return None if argument is None else look_up(self.tables[part['table']], argument, part.get('backward'), self.units)
        if 'function' in part:
            natures = self.common(part['arguments'])
            inside = nature if nature in natures else (natures or [nature])[0]
            values = [self.work_out(one, inside) for one in part['arguments']]
            return None if None in values else self.function(part['function'], values)
        is_sum = part['operator'] in '+-'
        default = (self.natures(part['left']) or [nature])[0], (self.natures(part['right']) or [nature])[-1]
        natures = (self.sides(part, nature) or default) if is_sum else ('difference', 'difference')
        left, right = self.work_out(part['left'], natures[0]), self.work_out(part['right'], natures[1])
        if left is None or right is None or part['operator'] == '/' and right == 0:
            return None
        return {'+': lambda: left + right, '-': lambda: left - right, '*': lambda: left * right, '/': lambda: left / right}[
            part['operator']
        ]()

    @staticmethod
    def function(name, values):
        mean = sum(values) / len(values)
        deviation = max(abs(value - mean) for value in values)
        if name == 'unbalance':
            return None if mean == 0 else deviation / abs(mean)
        return {'mean': mean, 'largest': max(values), 'smallest': min(values), 'deviation': deviation}[name]

    # The way

    def meant(self, name):
        subject = self.place[1][-1][1] if self.place[0] == 'step' else None
        if subject is None:
            return name
        return subject if name == 'it' else f'{subject}{name[2:]}' if name.startswith('it.') else name

    def enter(self, frames, name):
        while True:
            owner, _, follow = frames[-1]
            for sort in ('steps', 'conclusions', 'referrals', 'results'):
                target = next((one for one in owner.get(sort, []) if one['id'] == name), None)
                if target:
                    break
            if not target or not self.holds(target):
                self.place = ('stuck',)
                return
            if sort == 'steps':
                self.place = ('step', frames, target, 0, 0, False)
                return
            if sort != 'results':
                self.place = ('end', sort, target)
                return
            named = [way for way in follow['branches'] if name in way.get('results', [])]
            ways = [way for way in named + [one for one in follow['branches'] if one.get('otherwise')] if self.holds(way)]
            if not ways:
                self.place = ('stuck',)
                return
            frames, name = frames[:-1], ways[0]['to']

    def go_on(self):
        """Goes on until something has to be done or answered."""
        for _ in range(100_000):
            if self.place[0] != 'step':
                return
            place = self.place
            _, frames, step, at, reading, seen = place
            if at >= len(step['statements']):
                self.place = ('stuck',)
                return
            statement = step['statements'][at]
            if self.holds(statement) and self.stops(statement, frames, step, at, reading, seen):
                return
            if self.place is place:
                self.place = ('step', frames, step, at + 1, 0, seen)
        self.place = ('stuck',)

    def stops(self, statement, frames, step, at, reading, seen):
        """True where the statement has to be done or answered. Where it leads on, the place is another one afterwards."""
        kind = statement['type']
        if kind in ('do', 'wait'):
            return True
        if kind in ('gate', 'restore'):
            return self.holds(self.gates[statement['gate']])
        if kind == 'read':
            if reading >= len(statement['tests']):
                return False
            test = self.tests.get(self.meant(statement['tests'][reading]))
            value = self.calculated(test) if test and self.holds(test) else None
            if test and self.holds(test) and value is None:
                return True
            if value is not None:
                self.prepare(test)
                self.readings[test['id']] = value
            self.place = ('step', frames, step, at, reading + 1, seen)
            return False
        if kind in ('test', 'confirm'):
            test = self.tests.get(self.meant(statement['test']))
            if not test or not self.holds(test):
                self.place = ('stuck',)
                return False
            return not self.pass_calculated(test)
        if kind in ('follow', 'go', 'continue'):
            shown = [one for one in step['statements'] if one['type'] in ('note', 'picture', 'see', 'safety')]
            if not seen and any(self.holds(one) for one in shown + step.get('cautions', [])):
                return True
            self.leave(statement, frames)
        return False

    def pass_calculated(self, test):
        value = self.calculated(test)
        if value is None:
            return False
        before = dict(self.values), set(self.safe)
        self.prepare(test)
        outcome = self.judge(test, value)
        if outcome is None:
            self.values, self.safe = before
            return False
        self.readings[test['id']] = value
        self.leave_by(outcome)
        return True

    def leave(self, statement, frames):
        if statement['type'] == 'go':
            self.enter(frames, statement['to'])
        elif statement['type'] == 'continue':
            self.place = ('tree', statement['tree'])
        else:
            procedure = self.procedures[statement['procedure']]
            named = statement.get('withPart', statement.get('withTest'))
            subject = None if named is None else self.meant(named)
            if procedure['steps'] and self.holds(procedure):
                self.enter([*frames, (procedure, subject, statement)], procedure['steps'][0]['id'])
            else:
                self.place = ('stuck',)

    def leave_by(self, outcome):
        _, frames, step, at, _, _ = self.place
        statement = step['statements'][at]
        branches = statement['branches']
        named = [way for way in branches if outcome in way.get('outcomes', [])]
        others = [way for way in branches if way.get('otherwise')]
        ways = [way for way in named + others if self.holds(way)]
        disagree = self.document['tree'].get('disagree', []) if statement.get('othersDisagree') else []
        if ways:
            self.enter(frames, ways[0]['to'])
        else:
            self.enter_first(frames[:1], disagree)

    def enter_first(self, frames, ways):
        there = [way for way in ways if self.holds(way)]
        if there:
            self.enter(frames, there[0]['to'])
        else:
            self.place = ('stuck',)

    def leave_by_cannot(self, what, own):
        frames = self.place[1]
        here = [way for way in own + frames[-1][0].get(what, []) if self.holds(way)]
        if here:
            self.enter(frames, here[0]['to'])
        else:
            self.enter_first(frames[:1], self.document['tree'].get(what, []))

    # Answers

    def keep(self):
        return (self.place, dict(self.values), list(self.closed), set(self.safe), dict(self.readings), set(self.build))

    def put_back(self, kept):
        self.place, self.values, self.closed, self.safe, self.readings, self.build = (
            kept[0], dict(kept[1]), list(kept[2]), set(kept[3]), dict(kept[4]), set(kept[5]),
        )

    def answer(self, answer):
        kept = self.keep()
        try:
            if self.place[0] != 'step':
                raise Refused('no answer is asked for')
            self.take(answer)
            self.go_on()
        except Refused:
            self.put_back(kept)
            raise
        self.history.append(kept)

    def take(self, answer):
        _, frames, step, at, reading, _ = self.place
        statement = step['statements'][at]
        kind = statement['type']
        if kind in ('do', 'wait', 'gate', 'restore'):
            if answer == 'cannot be done':
                own = [{'to': statement['cannotBeDone']}] if 'cannotBeDone' in statement else []
                self.leave_by_cannot('cannotBeDone', own)
                return
            if answer != 'done':
                raise Refused('done or not')
            self.do(statement)
            self.place = ('step', frames, step, at + 1, 0, True)
        elif kind == 'read':
            self.take_reading(answer, self.tests[self.meant(statement['tests'][reading])])
        elif kind in ('test', 'confirm'):
            self.take_outcome(answer, self.tests[self.meant(statement['test'])], statement)
        elif answer == 'done':
            self.place = ('step', frames, step, at, reading, True)
        else:
            raise Refused('done')

    def do(self, statement):
        kind = statement['type']
        if kind == 'do':
            self.set_all(statement.get('sets'))
        elif kind == 'wait':
            hazard = self.hazard(statement.get('untilSafe'))
            if hazard in self.hazards and self.holds(self.hazards[hazard]):
                self.safe.add(hazard)
        else:
            gate = self.gates[statement['gate']]
            for element in gate.get('elements', []):
                if (element['element'] == 'restore') == (kind == 'restore') and self.holds(element):
                    self.set_all(element.get('sets'))
            self.closed = [one for one in self.closed if one != gate['id']]
            if kind == 'gate' and 'controls' in gate:
                self.closed.append(gate['id'])
            if kind == 'restore':
                self.safe -= {self.hazard(one['hazard']) for one in gate.get('controls', [])}

    def take_reading(self, answer, test):
        _, frames, step, at, reading, _ = self.place
        if answer == 'cannot be read':
            self.leave_by_cannot('cannotBeRead', [])
            return
        if answer != 'done' and isinstance(answer, str):
            raise Refused('a reading')
        value = None if answer == 'done' else self.read(test, answer)
        self.prepare(test)
        self.readings[test['id']] = value
        self.place = ('step', frames, step, at, reading + 1, True)

    def take_outcome(self, answer, test, statement):
        outcome = next((one for one in test['outcomes'] if one['id'] == answer), None)
        if isinstance(answer, dict):
            value = self.read(test, answer)
            self.prepare(test)
            taken = self.judge(test, value)
            if taken is None:
                raise Refused('no single outcome')
            self.readings[test['id']] = value
            self.leave_by(taken)
        elif outcome:
            if 'choice' in outcome and outcome['choice'] not in self.build:
                raise Refused('another build')
            if not any(self.holds(case) for case in outcome['cases']):
                raise Refused('not in this build')
            self.prepare(test)
            self.readings[test['id']] = None
            self.leave_by(answer)
        elif answer == 'cannot be read':
            self.leave_by_cannot('cannotBeRead', [way for way in statement['branches'] if way.get('cannotBeRead')])
        else:
            raise Refused('no such outcome')

    def back(self):
        if not self.history:
            raise Refused('the beginning')
        self.put_back(self.history.pop())

    def finish(self, complaint):
        if self.place[0] != 'end':
            raise Refused('no end')
        self.history.append(self.keep())
        _, kind, end = self.place
        if complaint != 'still there' or kind == 'referrals':
            self.place = ('finished', end['id'])
            return
        self.values, self.closed, self.safe = {}, [], set()
        ways = [way for way in end.get('stillWrong', []) + self.document['tree'].get('stillWrong', []) if self.holds(way)]
        if ways:
            self.enter([(self.document['tree'], None, None)], ways[0]['to'])
            self.go_on()
        else:
            self.begin()

    # What is to be seen

    def screen(self):
        kind = self.place[0]
        if kind == 'end':
            return self.screen_of_end(self.place[1], self.place[2])
        if kind != 'step':
            return ' '.join(self.place)
        _, frames, step, at, reading, _ = self.place
        owner, subject, _ = frames[-1]
        where = step['id']
        if len(frames) > 1:
            where = f"{owner['id']}{'' if subject is None else f'({subject})'}/{where}"
        return f'{where}: {self.screen_of_statement(step["statements"][at], reading)}'

    def screen_of_statement(self, statement, reading):
        kind = statement['type']
        if kind in ('do', 'wait'):
            return kind
        if kind in ('gate', 'restore'):
            return f"{kind} {statement['gate']}"
        if kind == 'read':
            return f"read {self.meant(statement['tests'][reading])}"
        if kind in ('test', 'confirm'):
            test = self.tests[self.meant(statement['test'])]
            return f"{kind} {test['id']} ({', '.join(self.outcomes(test))})"
        return 'look'

    def outcomes(self, test):
        """The outcomes that can be in this build and in the state in which the test is made."""
        kept = self.keep()
        self.prepare(test)
        found = []
        for outcome in test['outcomes']:
            zones = self.zones_of(test)
            cases = [one for one in outcome['cases'] if self.holds(one) and ('when' not in one or self.state(one['when'], zones) is not False)]
            if cases and ('choice' not in outcome or outcome['choice'] in self.build):
                found.append(outcome['id'])
        self.put_back(kept)
        return found

    def screen_of_end(self, kind, end):
        faults = [one['fault'] for one in end.get('faults', []) if self.holds(one) and self.has_fault(one['fault'])]
        repairs = [one for one in end.get('repairs', []) if self.holds(one)]
        parts = [f"{'conclude' if kind == 'conclusions' else 'refer'} {end['id']}"]
        if faults:
            parts.append(f"faults {', '.join(faults)}")
        if repairs:
            parts.append(f"repairs {', '.join(one['action'] for one in repairs)}")
        if kind == 'conclusions':
            used = [gate for repair in repairs for gate in repair.get('gates', []) if self.holds(self.gates[gate])]
            leaves = [one for one in end.get('leaves', []) if self.holds(one)]
            left = {one.get('gate', one.get('condition')) for one in leaves}
            close = [gate for gate in dict.fromkeys(used) if gate not in self.closed]
            restore = [gate for gate in dict.fromkeys(self.closed + used) if gate not in left]
            back = [name for name, value in self.values.items() if value != self.conditions[name]['values'][0]['id'] and name not in left]
            parts += [f"{word} {', '.join(names)}" for word, names in (('close', close), ('restore', restore), ('set back', back)) if names]
        return '; '.join(parts)

    def has_fault(self, name):
        part = self.parts[name[: name.rindex('.')]]
        fault = next(one for one in part['faults'] if one['id'] == name)
        return self.holds(part) and self.holds(fault)


def within(value, stretch):
    low, high = stretch
    above = not low or value > low[0] or value == low[0] and low[1]
    below = not high or value < high[0] or value == high[0] and high[1]
    return above and below


def lies(value, stretch, side):
    low, high = stretch
    if side == 'below':
        return bool(low) and not within(value, [low, None])
    return bool(high) and not within(value, [None, high])


# Vectors


def run(vector, folder):
    """What goes wrong in one vector; None where nothing does."""
    document = vector['document']
    if isinstance(document, str):
        document = json.loads((folder / document).read_text(encoding='utf-8'))
    try:
        walker = Walker(document, vector['build'])
    except Refused:
        return None if vector['walk'][0]['screen'] == 'no document' else 'the document is refused'
    for index, stop in enumerate(vector['walk']):
        try:
            if 'answer' in stop:
                walker.answer(stop['answer'])
            elif 'finish' in stop:
                walker.finish(stop['finish'])
            elif stop.get('back'):
                walker.back()
            screen = walker.screen()
        except Refused:
            screen = 'no'
        if 'screen' in stop and screen != stop['screen']:
            return f"stop {index}: {screen!r} in place of {stop['screen']!r}"
    return None


def main():
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent / 'vectors'
    right, wrong = 0, 0
    for file in sorted(folder.glob('*.json')):
        problem = run(json.loads(file.read_text(encoding='utf-8')), folder)
        if problem is None:
            right += 1
        else:
            wrong += 1
            print(f'{file.name}: {problem}')
    print(f'{right} right, {wrong} wrong')
    return 1 if wrong else 0


if __name__ == '__main__':
    sys.exit(main())
