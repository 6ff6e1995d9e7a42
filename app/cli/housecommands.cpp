// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/lockalarms.h"
#include "access/scanreader.h"
#include "access/signin.h"
#include "cli/commandline.h"
#include "cli/demomaker.h"
#include "domain/housecatalogue.h"
#include "domain/words.h"

#include <algorithm>

namespace ramplight::cli {

namespace {

template <class E>
tl::expected<std::vector<E>, QString> readNames(const QString& list)
{
    std::vector<E> values;
    for (const QString& name : list.split(QLatin1Char(','), Qt::SkipEmptyParts)) {
        const auto value = fromName<E>(name.trimmed());
        if (!value) {
            QStringList known;
            for (const auto& [v, text] : Names<E>::table)
                known.append(QLatin1StringView(text));
            return tl::unexpected(QStringLiteral("%1 is not known; these are: %2.")
                                      .arg(name.trimmed(), known.join(QStringLiteral(", "))));
        }
        values.push_back(*value);
    }
    return values;
}

template <class E>
QString list(const std::vector<E>& values)
{
    QStringList names;
    for (const E value : values)
        names.append(nameOf(value));
    return names.join(QLatin1Char(','));
}

/// Asks twice. Error: an exit code, it was said.
tl::expected<Secret, int> askPin(Terminal& terminal)
{
    QString first = terminal.askSecretly(QStringLiteral("New PIN: "));
    QString second = terminal.askSecretly(QStringLiteral("The same again: "));
    const bool same = first == second;
    Secret pin(first.toUtf8());
    first.fill(QLatin1Char('0'));
    second.fill(QLatin1Char('0'));
    if (!same)
        return tl::unexpected<int>(failed(
            terminal, QStringLiteral("The two are not the same. Nothing was changed."), BadData));
    if (const auto good = checkNewPin({}, pin); !good)
        return tl::unexpected<int>(failed(terminal, words(good.error()), BadData));
    return pin;
}

/// With the entry that tells of it, never what it is.
int setPin(OpenHouse& house, PersonId by, PersonId person, const Secret& pin, Terminal& terminal)
{
    HouseAlarm alarm(house.workshop());
    SignIn signIn(PinHasher(house.keys().pepper().clone()), house.store().credentials(),
                  house.store().failures(), alarm);
    SiteRequest request{freshCommand(), by, site::ChangeAccess{person, QStringLiteral("pin")}, {}};
    QString refused;
    const auto set =
        signIn.setPin(person, pin, [&](const QByteArray& hash) -> tl::expected<void, AccessError> {
            request.access = {person, hash};
            const auto done = house.workshop().run(request);
            if (done)
                return {};
            refused = words(done.error());
            return tl::unexpected(AccessError::StoreAway);
        });
    if (!refused.isEmpty())
        return failed(terminal, refused, NoPermission);
    return set ? Ok : failed(terminal, words(set.error()), BadData);
}

/// What a reader at the wall makes of the badge, from what is printed on it, with the prefix or
/// without; "none" takes it away. Error: words.
tl::expected<QString, QString> badgeCode(const QString& printed)
{
    if (printed.compare(QLatin1String("none"), Qt::CaseInsensitive) == 0)
        return QString();
    const ScanRules rules;
    const ScanAnswer scan = classifyScan(rules, printed);
    const ScanAnswer whole = classifyScan(rules, rules.badgePrefix + printed.trimmed());
    if (scan.scan == ScanKind::Badge)
        return scan.payload;
    if (scan.scan == ScanKind::Unknown && whole.scan == ScanKind::Badge)
        return whole.payload;
    return tl::unexpected(QStringLiteral("%1 is no badge's code: letters, digits and dashes, as on "
                                         "the badge, or none to take it away.")
                              .arg(printed));
}

int listStaff(const SiteState& site, const Catalogue& catalogue, Terminal& terminal)
{
    const QDate today = dayOf(terminal.clock.now(), site.rules);
    for (const auto& [id, person] : site.people)
        terminal.out << person.name << (person.active ? "" : " (left)") << "\n    skills "
                     << list(person.skills) << "\n    rights " << list(person.rights) << Qt::endl;
    for (const QString& gap : missingCombinations(site, catalogue, today))
        terminal.out << "Careful: " << gap << Qt::endl;
    return Ok;
}

/// A line for each signature: car, operation, command.
void tellSignOffs(const Append& kept, Terminal& terminal)
{
    for (const CarAppend& car : kept.cars)
        for (const CarEvent& event : car.events)
            if (const auto* sign = std::get_if<OperationSigned>(&event))
                terminal.out << "signed " << car.car.text << ' ' << sign->operation.value << ' '
                             << kept.command.text << Qt::endl;
}

} // namespace

int staff(const QStringList& given, Terminal& terminal)
{
    const Command& self = *find(QStringLiteral("staff"));
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    const bool givesSkills = arguments.contains(QStringLiteral("--skills"));
    const bool givesRights = arguments.contains(QStringLiteral("--rights"));
    const auto skills = readNames<Skill>(takeOption(arguments, QStringLiteral("--skills")));
    const auto rights = readNames<Right>(takeOption(arguments, QStringLiteral("--rights")));
    if (!skills || !rights)
        return failed(terminal, skills ? rights.error() : skills.error(), BadUsage);
    if (arguments.isEmpty())
        return usage(terminal, self);
    const QString what = arguments.takeFirst();
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    if (what == QLatin1String("list") && arguments.isEmpty())
        return listStaff(*site, houseCatalogue(house->catalogue(), *site), terminal);
    static const QStringList changes{QStringLiteral("add"),   QStringLiteral("change"),
                                     QStringLiteral("pin"),   QStringLiteral("badge"),
                                     QStringLiteral("leave"), QStringLiteral("back")};
    if (arguments.isEmpty() || !changes.contains(what))
        return usage(terminal, self);
    const auto by = actor(*site, asName, Right::Manage);
    if (!by)
        return failed(terminal, by.error(), NoPermission);
    const QString name = arguments.takeFirst();
    if (what == QLatin1String("add") && arguments.isEmpty()) {
        if (site->personNamed(name) != nullptr)
            return failed(terminal, words(Refusal{RefusalId::NameTaken, {name}}), BadData);
        // First: nobody is to stand in the house who cannot sign in, least of all a manager.
        const auto pin = askPin(terminal);
        if (!pin)
            return pin.error();
        const auto added = house->workshop().run(
            SiteRequest{freshCommand(), *by, site::AddPerson{*skills, *rights}, name});
        if (!added)
            return failed(terminal, words(added.error()), BadData);
        terminal.out << name << " is added." << Qt::endl;
        return setPin(*house, *by, added->person, *pin, terminal);
    }
    const Person* person = site->personNamed(name);
    if (person == nullptr)
        return failed(terminal, QStringLiteral("Nobody here is called %1.").arg(name), BadData);
    if (what == QLatin1String("pin") && arguments.isEmpty()) {
        const auto pin = askPin(terminal);
        return pin ? setPin(*house, *by, person->id, *pin, terminal) : pin.error();
    }
    if (what == QLatin1String("badge") && arguments.size() == 1) {
        const auto code = badgeCode(arguments.first());
        if (!code)
            return failed(terminal, code.error(), BadData);
        SiteRequest request{
            freshCommand(), *by, site::ChangeAccess{person->id, QStringLiteral("badge")}, {}};
        request.access = {person->id, {}, *code};
        const auto told = house->workshop().run(request);
        return told ? Ok : failed(terminal, words(told.error()), NoPermission);
    }
    site::ChangePerson change{person->id, person->skills, person->rights, person->active};
    if (what == QLatin1String("leave"))
        change.active = false;
    else if (what == QLatin1String("back"))
        change.active = true;
    else if (what != QLatin1String("change") || (!givesSkills && !givesRights))
        return usage(terminal, self);
    if (givesSkills)
        change.skills = *skills;
    if (givesRights)
        change.rights = *rights;
    if (arguments.isEmpty()) {
        const auto changed =
            house->workshop().run(SiteRequest{freshCommand(), *by, std::move(change), {}});
        return changed ? Ok : failed(terminal, words(changed.error()), BadData);
    }
    return usage(terminal, self);
}

int bay(const QStringList& given, Terminal& terminal)
{
    const Command& self = *find(QStringLiteral("bay"));
    QStringList arguments = given;
    const QString asName = takeOption(arguments, QStringLiteral("--as"));
    if (arguments.isEmpty())
        return usage(terminal, self);
    const QString what = arguments.takeFirst();
    const auto house = openOrSay(terminal);
    if (!house)
        return Unavailable;
    const auto site = house->store().ledger().site();
    if (!site)
        return failed(terminal, site.error().words, Unavailable);
    if (what == QLatin1String("list") && arguments.isEmpty()) {
        for (const auto& [id, entry] : site->bays)
            terminal.out << entry.number << "  " << entry.name << "  " << nameOf(entry.kind)
                         << (entry.active ? "" : "  (closed)") << Qt::endl;
        return Ok;
    }
    const auto by = actor(*site, asName, Right::Manage);
    if (!by)
        return failed(terminal, by.error(), NoPermission);
    const bool adds = what == QLatin1String("add");
    const bool describes = adds || what == QLatin1String("change");
    const bool opens = what == QLatin1String("open");
    if (describes ? arguments.size() != 3
                  : (!opens && what != QLatin1String("close")) || arguments.size() != 1)
        return usage(terminal, self);
    Bay changed{{}, arguments.first().toInt(), {}, BayKind::Any, true};
    if (!adds) {
        // What is opened was closed; a number that was given again is that of the bay in use.
        const auto it = std::ranges::find_if(site->bays, [&](const auto& entry) {
            return entry.second.active != opens && entry.second.number == changed.number;
        });
        if (it == site->bays.end())
            return failed(
                terminal,
                QStringLiteral("There is no %1bay %2.")
                    .arg(opens ? QStringLiteral("closed ") : QString(), arguments.first()),
                BadData);
        changed = it->second;
        changed.active = opens || describes;
    }
    if (describes) {
        const auto kind = fromName<BayKind>(arguments.at(2));
        if (!kind)
            return failed(terminal, QStringLiteral("%1 is no kind of bay.").arg(arguments.at(2)),
                          BadUsage);
        changed.name = arguments.at(1);
        changed.kind = *kind;
    }
    const auto set =
        house->workshop().run(SiteRequest{freshCommand(), *by, site::SetBay{changed}, {}});
    return set ? Ok : failed(terminal, words(set.error()), BadData);
}

int demo(const QStringList& given, Terminal& terminal)
{
    QStringList arguments = given;
    TellingLedger::Told told;
    if (takeFlag(arguments, QStringLiteral("--tell")))
        told = [&terminal](const Append& kept) { tellSignOffs(kept, terminal); };
    if (!arguments.isEmpty())
        return usage(terminal, *find(QStringLiteral("demo")));
    const auto house = openOrSay(terminal, true);
    if (!house)
        return Unavailable;
    const auto made = makeDemo(
        house->store(), house->catalogue(), house->photos(),
        PinHasher(house->keys().pepper().clone()), terminal.clock.now(), [](double) {}, told);
    if (!made)
        return failed(terminal, made.error(), BadData);
    terminal.out << "The demo workshop is in " << terminal.paths.root() << ". Everybody's PIN is "
                 << demoPin() << "." << Qt::endl;
    return Ok;
}

} // namespace ramplight::cli
