// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/sitechangewords.h"

#include "domain/retention.h"
#include "domain/say.h"
#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/timewords.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

QString became(const QString& what, const QString& was, const QString& is)
{
    return was == is ? QString() : say("%1: %2 became %3").arg(what, was, is);
}

template <class E>
QString listOf(const std::vector<E>& values)
{
    QStringList all;
    for (const E value : values)
        all.append(words(value));
    return all.isEmpty() ? say("none") : all.join(QStringLiteral(", "));
}

QString clock(int minute)
{
    return QStringLiteral("%1:%2").arg(minute / 60).arg(minute % 60, 2, 10, QLatin1Char('0'));
}

QString keptFor(int years)
{
    return years == 0 ? say("for good") : yearsWords(years);
}

class SiteTeller
{
public:
    SiteTeller(const SiteState& before, const SiteBook& book)
        : m_before(before)
        , m_book(book)
    {
    }

    SiteChangeWords operator()(const HouseRulesSet& e) const
    {
        const HouseRules& was = m_before.rules;
        const HouseRules& is = e.rules;
        QStringList parts{
            became(say("country"), was.country, is.country),
            became(say("traffic"), nameOf(was.trafficSide), nameOf(is.trafficSide)),
            became(say("sides"), sides(was), sides(is)),
            became(say("currency"), was.currency, is.currency),
            became(say("end of the shift"), clock(was.shiftEndMinute), clock(is.shiftEndMinute)),
            was.week == is.week ? QString() : say("the week's hours"),
            was.closed == is.closed ? QString() : say("days on which the house is closed"),
            became(say("signed out after"), say("%1 s").arg(was.lockSeconds),
                   say("%1 s").arg(is.lockSeconds)),
            became(say("never left as it is"), listOf(was.neverLeft), listOf(is.neverLeft)),
            became(say("photos asked"), listOf(was.askPhotos), listOf(is.askPhotos)),
            became(say("photos kept"), keptFor(was.photoYears), keptFor(is.photoYears)),
            became(say("final check by a worker"), yesNo(was.finalCheckByWorker),
                   yesNo(is.finalCheckByWorker)),
            became(say("time zone"), was.timeZone, is.timeZone),
        };
        for (const NamedLimit& shipped : m_book.base().houseLimits)
            parts.append(
                became(shipped.title, valueOf(shipped, was.limits), valueOf(shipped, is.limits)));
        parts.removeAll(QString());
        return {say("House rules"), parts.join(QStringLiteral("; "))};
    }

    SiteChangeWords operator()(const QualificationSet& e) const
    {
        return {say("Qualification of %1").arg(m_book.nameOf(e.person)),
                e.until.isValid()
                    ? say("%1 until %2").arg(words(e.qualification), dayWords(e.until))
                    : say("%1 taken away").arg(words(e.qualification))};
    }

    SiteChangeWords operator()(const SpecialitiesSet& e) const
    {
        QStringList all;
        for (const QString& speciality : e.specialities)
            all.append(specialityWords(speciality));
        return {say("Specialities of %1").arg(m_book.nameOf(e.person)),
                all.isEmpty() ? say("none") : all.join(QStringLiteral(", "))};
    }

    SiteChangeWords operator()(const PersonTimesSet& e) const
    {
        QStringList parts;
        for (const DaysAway& away : e.times.away)
            parts.append(away.first == away.last
                             ? say("away on %1").arg(dayWords(away.first))
                             : say("away %1 to %2").arg(dayWords(away.first), dayWords(away.last)));
        for (const ExtraHours& extra : e.times.extra)
            parts.append(say("works on %1, %2 to %3")
                             .arg(dayWords(extra.day), clock(extra.from), clock(extra.to)));
        if (!e.times.week.empty())
            parts.append(say("a week of their own"));
        return {say("Times of %1").arg(m_book.nameOf(e.person)),
                parts.isEmpty() ? say("as the house") : parts.join(QStringLiteral("; "))};
    }

    SiteChangeWords operator()(const ToolSet& e) const
    {
        const Tool* was = m_before.tool(e.tool.id);
        QStringList parts{words(e.tool.kind)};
        if (was != nullptr && was->nextCalibration != e.tool.nextCalibration)
            parts.append(became(say("next calibration"), dayWords(was->nextCalibration),
                                dayWords(e.tool.nextCalibration)));
        else
            parts.append(say("next calibration %1").arg(dayWords(e.tool.nextCalibration)));
        if (!e.tool.active)
            parts.append(say("left the house"));
        return {was == nullptr ? say("New tool %1").arg(e.tool.number)
                               : say("Tool %1").arg(e.tool.number),
                parts.join(QStringLiteral("; "))};
    }

    SiteChangeWords operator()(const OperationAdjusted& e) const
    {
        const OperationSpec* spec = m_book.base().find(e.adjustment.operation);
        const QString title = sentence(spec == nullptr ? e.adjustment.operation : spec->title);
        if (e.adjustment.isEmpty())
            return {title, say("the catalogue's own values again")};
        QStringList parts;
        if (e.adjustment.minutes)
            parts.append(say("minutes %1, %2, %3")
                             .arg(e.adjustment.minutes->low)
                             .arg(e.adjustment.minutes->usual)
                             .arg(e.adjustment.minutes->high));
        if (e.adjustment.materialMinor)
            parts.append(
                say("material %1 %2")
                    .arg(typedText(*e.adjustment.materialMinor, 2), m_before.rules.currency));
        for (const ReadingAdjustment& limit : e.adjustment.limits)
            parts.append(limitOf(spec, limit));
        for (const PhotoSpec& photo : e.adjustment.photos)
            parts.append(say("photo %1").arg(words(photo.moment)));
        return {title, parts.join(QStringLiteral("; "))};
    }

    SiteChangeWords operator()(const CatalogueAdopted& e) const
    {
        return {say("Catalogue"), e.catalogue ? say("taken in: %1").arg(e.catalogue->title)
                                              : say("the shipped one again")};
    }

    SiteChangeWords operator()(const BaySet& e) const
    {
        return {say("Bay %1 %2").arg(e.bay.number).arg(e.bay.name),
                e.bay.active ? words(e.bay.kind) : say("closed")};
    }

    SiteChangeWords operator()(const PersonAdded& e) const
    {
        return {m_book.nameOf(e.person), say("added, may %1").arg(listOf(e.rights))};
    }

    SiteChangeWords operator()(const PersonChanged& e) const
    {
        return {m_book.nameOf(e.person),
                e.active ? dotted({listOf(e.skills), say("may %1").arg(listOf(e.rights))})
                         : say("left")};
    }

    SiteChangeWords operator()(const PinAlarm& e) const
    {
        if (e.person.isNull())
            return {say("PINs of %1 people").arg(e.people),
                    say("somebody may be trying one after the other: %1 wrong ones within a "
                        "quarter of an hour, no right one after them")
                        .arg(e.failures)};
        if (!e.locked)
            return {say("PIN of %1").arg(m_book.nameOf(e.person)),
                    say("somebody may be guessing it: %1 wrong ones in a row").arg(e.failures)};
        return {say("PIN of %1").arg(m_book.nameOf(e.person)),
                say("somebody guesses it: locked after %1 wrong ones, until a new PIN is set")
                    .arg(e.failures)};
    }

    template <class Event>
    SiteChangeWords operator()(const Event&) const
    {
        return {};
    }

private:
    static QString yesNo(bool yes) { return yes ? say("yes") : say("no"); }
    static QString sides(const HouseRules& rules)
    {
        return rules.sideWords == SideWords::NearOff ? say("near side, off side")
                                                     : say("left, right");
    }
    static QString valueOf(const NamedLimit& shipped, const std::vector<HouseLimit>& own)
    {
        const auto set = std::ranges::find(own, shipped.name, &HouseLimit::name);
        const int value =
            set != own.end() ? set->value : shipped.min.value_or(shipped.max.value_or(0));
        return valueWords(value, shipped.decimals, shipped.unit);
    }
    static QString limitOf(const OperationSpec* spec, const ReadingAdjustment& limit)
    {
        if (spec != nullptr)
            for (const ReadingSpec& reading : spec->readings)
                if (reading.key == limit.key)
                    return QStringLiteral("%1 %2").arg(
                        reading.title, valueWords(limit.min.value_or(limit.max.value_or(0)),
                                                  reading.decimals, reading.unit));
        return limit.key;
    }

    const SiteState& m_before;
    const SiteBook& m_book;
};

} // namespace

SiteChangeWords siteChangeWords(const SiteState& before, const SiteEvent& event,
                                const SiteBook& book)
{
    return std::visit(SiteTeller(before, book), event);
}

} // namespace ramplight
