// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/historywords.h"

#include "domain/clockwords.h"
#include "domain/retention.h"
#include "domain/say.h"
#include "domain/words.h"
#include "kiosk/carwords.h"

#include <algorithm>

namespace ramplight {

namespace {

QString treadWords(const Tread& tread)
{
    const auto mm = [](int tenths) { return valueWords(tenths, 1, Unit::Millimetre); };
    return say("inner %1, centre %2, outer %3")
        .arg(mm(tread.inner), mm(tread.centre), mm(tread.outer));
}

/// "text: rest", or the text alone.
QString with(const QString& text, const QString& rest)
{
    return rest.isEmpty() ? text : QStringLiteral("%1: %2").arg(text, rest);
}

class Teller
{
public:
    Teller(const CarState& car, const SiteBook& book)
        : m_car(car)
        , m_book(book)
    {
    }

    HistoryWords operator()(const CarArrived& e) const
    {
        return {say("Came in"), dotted({e.identity.stockNumber, makeModelOf(e.identity),
                                        e.identity.registration, promised(e.promised)})};
    }
    HistoryWords operator()(const IdentityCorrected& e) const
    {
        return {say("Identity corrected"),
                dotted({e.identity.stockNumber, makeModelOf(e.identity), e.identity.registration,
                        e.identity.vin, e.reason})};
    }
    HistoryWords operator()(const FactsCorrected& e) const
    {
        return {e.carriedFrom.isEmpty() ? say("Facts corrected") : say("Facts carried over"),
                e.reason};
    }
    HistoryWords operator()(const PromiseChanged& e) const
    {
        return {say("Promise changed"),
                dotted({promised(e.promised), e.importance ? words(*e.importance) : QString(),
                        e.reason})};
    }
    HistoryWords operator()(const FindingRecorded& e) const
    {
        return {e.carriedFrom.isEmpty() ? say("Found") : say("Found, carried over"),
                dotted({findingWords(e.data, m_book.rules()),
                        e.disclosed ? say("left and disclosed") : QString(),
                        e.undecided ? say("nobody has decided yet") : QString(),
                        e.foundBy.empty() ? QString()
                                          : whose({e.carriedFrom, e.foundBy.back(), e.foundAt})}),
                e.during};
    }
    HistoryWords operator()(const FindingCorrected& e) const
    {
        return {e.stands ? say("Finding corrected") : say("Finding is not there"),
                dotted({findingWords(e.data, m_book.rules()), e.reason})};
    }
    HistoryWords operator()(const FindingAnswered& e) const
    {
        const Finding* finding = m_car.finding(e.finding);
        return {
            say("Answered anew, as the car's facts were others"),
            dotted({finding == nullptr ? QString() : findingWords(finding->data(), m_book.rules()),
                    e.why, e.disclosed ? say("left and disclosed") : QString(),
                    e.undecided ? say("nobody has decided yet") : QString()})};
    }
    HistoryWords operator()(const PlacesFoundSound& e) const
    {
        return {say("Found sound"), dotted({places(e.places), whose(e.carried)})};
    }
    HistoryWords operator()(const WalkRoundRead& e) const
    {
        return {say("Walk-round read"),
                dotted({e.round.name, say("%1 drafts").arg(e.round.drafts.size())})};
    }
    HistoryWords operator()(const DraftDecided& e) const
    {
        const SpokenDraft* draft = m_car.draft({e.transcript, e.draft});
        const QString what =
            draft == nullptr ? QString() : findingWords(draft->data, m_book.rules());
        switch (e.end) {
        case DraftEnd::Kept:
            return {say("Draft kept"), what};
        case DraftEnd::Changed:
            return {say("Draft changed"), what};
        case DraftEnd::Dropped:
            return {say("Draft dropped"), what};
        case DraftEnd::Open:
            break;
        }
        return {say("Draft looked at again"), what};
    }
    HistoryWords operator()(const TreadRecorded& e) const
    {
        return {say("Tread measured: %1").arg(placeWords(e.place, m_book.rules())),
                treadWords(e.tread)};
    }
    HistoryWords operator()(const TyreRecorded& e) const
    {
        const QString tyre = placeWords(e.place, m_book.rules());
        return {e.fitted  ? say("Another tyre fitted: %1").arg(tyre)
                : e.tread ? say("Tread measured: %1").arg(tyre)
                          : say("Tyre read: %1").arg(tyre),
                dotted({e.tread ? treadWords(*e.tread) : QString(), fitmentWords(e.marking.fitment),
                        e.marking.dateCode.isEmpty() ? QString()
                                                     : say("date code %1").arg(e.marking.dateCode),
                        whose(e.carried)}),
                e.during};
    }
    HistoryWords operator()(const PaintDepthRecorded& e) const
    {
        QStringList depths;
        for (const int depth : e.micrometres)
            depths.append(QString::number(depth));
        return {say("Paint depth measured: %1").arg(placeWords(e.panel, m_book.rules())),
                dotted({say("%1 µm").arg(depths.join(QStringLiteral(", "))), whose(e.carried)})};
    }
    HistoryWords operator()(const OdometerRead& e) const
    {
        return {
            say("Odometer read"),
            dotted({odometerWords(e.value, e.unit),
                    e.lowerWhy.isEmpty() ? QString() : say("less than before: %1").arg(e.lowerWhy),
                    whose(e.carried)}),
            e.during};
    }
    HistoryWords operator()(const AppraisalFinished& e) const
    {
        return {say("Appraisal finished"),
                e.notLookedAt.empty() ? QString()
                                      : say("not looked at: %1").arg(places(e.notLookedAt))};
    }
    HistoryWords operator()(const OperationOpened& e) const
    {
        return about(e.operation, say("Opened"), e.reason);
    }
    HistoryWords operator()(const OperationExtended& e) const
    {
        return about(e.operation, say("Answers more now"));
    }
    HistoryWords operator()(const OperationNarrowed& e) const
    {
        return about(e.operation, say("Answers less now"));
    }
    HistoryWords operator()(const OperationWithdrawn& e) const
    {
        return about(e.operation, say("Not needed any more"), e.reason);
    }
    HistoryWords operator()(const OperationTakenOut& e) const
    {
        return about(e.operation, say("Taken out by the appraiser"), e.reason);
    }
    HistoryWords operator()(const CautionsRead& e) const
    {
        return about(e.operation, say("Cautions read"));
    }
    HistoryWords operator()(const WorkStarted& e) const
    {
        return about(e.operation, say("Started"), clockWords(e.clockSetBack, false));
    }
    HistoryWords operator()(const WorkStopped& e) const
    {
        const QString minutes = dotted(
            {minutesOf(e.operation, e.segment), clockWords(e.clockSetBack, e.ranMs.has_value())});
        switch (e.how) {
        case StopKind::Paused:
            return about(e.operation, say("Paused"), minutes);
        case StopKind::HandedOver:
            return about(e.operation, say("Stopped to hand over"), minutes);
        case StopKind::Finished:
            return about(e.operation, say("Work done"), minutes);
        case StopKind::ShiftEnd:
            return about(e.operation, say("Paused at the end of the shift"), minutes);
        case StopKind::Blocked:
            return about(e.operation, say("Stopped, it cannot go on"), minutes);
        }
        return {};
    }
    HistoryWords operator()(const MinutesCorrected& e) const
    {
        return about(e.operation, say("Minutes corrected"),
                     dotted({minutesWords(e.minutes), e.reason}));
    }
    HistoryWords operator()(const HandedOver& e) const
    {
        return about(e.operation, say("Handed to %1").arg(m_book.nameOf(e.to)));
    }
    HistoryWords operator()(const WorkPlanned& e) const
    {
        const Bay* bay = m_book.site().bay(e.bay);
        return about(
            e.operation, say("Planned by the manager"),
            dotted({e.person.isNull() ? QString() : m_book.nameOf(e.person),
                    bay == nullptr ? QString() : say("bay %1").arg(bay->number),
                    e.from.isNull() ? QString()
                                    : say("not before %1").arg(m_book.times().full(e.from))}));
    }
    HistoryWords operator()(const FigureSet& e) const
    {
        return about(e.operation, say("This car's figure entered"), figure(e));
    }
    HistoryWords operator()(const FigureCorrected& e) const
    {
        return about(e.operation, say("This car's figure corrected"),
                     dotted({figure(e), e.reason}));
    }
    HistoryWords operator()(const ReadingTaken& e) const
    {
        return about(e.operation, say("Measured"),
                     reading(e.operation, e.key, e.place, e.value, e.outcome, e.tool));
    }
    HistoryWords operator()(const ReadingCorrected& e) const
    {
        const Operation* operation = m_car.operation(e.operation);
        QString key;
        PlaceId place;
        if (operation != nullptr)
            for (const Reading& known : operation->readings)
                if (known.id == e.original) {
                    key = known.key;
                    place = known.place;
                }
        return about(
            e.operation, say("Reading corrected"),
            dotted({reading(e.operation, key, place, e.value, e.outcome, e.tool), e.reason}));
    }
    HistoryWords operator()(const PhotoAttached& e) const
    {
        if (e.operation.isNull())
            return {say("Photo"), dotted({words(e.moment), placeWordsOf(e.place)})};
        return about(e.operation, say("Photo %1").arg(words(e.moment)));
    }
    HistoryWords operator()(const OperationSigned& e) const
    {
        return about(e.operation, say("Signed, %1").arg(words(e.meaning)),
                     dotted({e.minutes > 0 ? minutesWords(e.minutes) : QString(), e.note}));
    }
    HistoryWords operator()(const OperationClosed& e) const
    {
        return about(e.operation, say("Closed"));
    }
    HistoryWords operator()(const OperationReopened& e) const
    {
        return about(e.operation, say("Opened again"), e.reason);
    }
    HistoryWords operator()(const OperationLeft& e) const
    {
        return about(e.operation, say("Left as it is"), e.words);
    }
    HistoryWords operator()(const OperationBlocked& e) const
    {
        return about(e.operation, say("Waits for a part"),
                     dotted({e.part.part, e.part.supplier, due(e.part.due)}));
    }
    HistoryWords operator()(const OperationUnblocked& e) const
    {
        return about(e.operation, say("Can go on"));
    }
    HistoryWords operator()(const SentOut& e) const
    {
        const QString keys =
            e.work.keys > 0 ? say("keys given along: %1").arg(e.work.keys) : QString();
        return about(e.operation, say("Sent out"),
                     dotted({e.work.firm, due(e.work.dueBack), keys, e.work.document}));
    }
    HistoryWords operator()(const ReceivedBack& e) const
    {
        const QString keys = e.keys ? say("keys back: %1").arg(*e.keys) : QString();
        return about(e.operation, say("Received back"), dotted({keys, e.document}));
    }
    HistoryWords operator()(const DueChanged& e) const
    {
        return about(e.operation, say("Comes on another day"), dotted({due(e.due), e.reason}));
    }
    HistoryWords operator()(const IsolationSet& e) const
    {
        return about(e.operation, say("High voltage isolated"),
                     say("lock kept at: %1").arg(e.lockKeptAt));
    }
    HistoryWords operator()(const IsolationLifted& e) const
    {
        return about(e.operation, say("High voltage connected again"), e.procedure);
    }
    HistoryWords operator()(const CarMoved& e) const
    {
        return {say("Moved"), placeOf(e.bay, e.parking, m_book)};
    }
    HistoryWords operator()(const CarReleased&) const { return {say("Released to sale"), {}}; }
    HistoryWords operator()(const CarHeldAgain& e) const { return {say("Held again"), e.reason}; }
    HistoryWords operator()(const CarLeft& e) const
    {
        return {say("Left sale preparation"), dotted({words(e.how), e.reason})};
    }
    HistoryWords operator()(const CarBroughtBack& e) const
    {
        return {say("Brought back"), e.reason};
    }
    HistoryWords operator()(const PhotosRemoved& e) const
    {
        return {say("Photos removed: %1").arg(e.photos.size()),
                say("kept for %1, as the house asked").arg(yearsWords(e.years))};
    }
    HistoryWords operator()(const DuplicateLinked& e) const
    {
        return {say("Entered twice: evidence of %1 carried over").arg(e.otherStockNumber), {}};
    }

private:
    [[nodiscard]] HistoryWords about(OperationId id, const QString& what,
                                     const QString& detail = {}) const
    {
        const Operation* operation = m_car.operation(id);
        return {with(what, operation == nullptr
                               ? QString()
                               : operationTitle(operation->spec, operation->place, m_book.rules())),
                detail, id};
    }

    [[nodiscard]] const ReadingSpec* specOf(OperationId id, const QString& key) const
    {
        const Operation* operation = m_car.operation(id);
        if (operation == nullptr)
            return nullptr;
        const auto found = std::ranges::find(operation->spec->readings, key, &ReadingSpec::key);
        return found == operation->spec->readings.end() ? nullptr : &*found;
    }

    template <class Event>
    [[nodiscard]] QString figure(const Event& e) const
    {
        const ReadingSpec* spec = specOf(e.operation, e.key);
        return dotted({spec == nullptr ? e.key : spec->title, placeWordsOf(e.place),
                       spec == nullptr ? QString::number(e.value)
                                       : valueWords(e.value, spec->decimals, spec->unit),
                       e.source});
    }

    [[nodiscard]] QString reading(OperationId id, const QString& key, const PlaceId& place,
                                  const ReadingValue& value, ReadingOutcome outcome,
                                  const ToolUsed& tool) const
    {
        const ReadingSpec* spec = specOf(id, key);
        if (spec == nullptr)
            return {};
        return dotted({spec->title, placeWordsOf(place), readingWords(*spec, value),
                       outcome == ReadingOutcome::Outside ? say("outside its limit") : QString(),
                       toolWords(*spec, tool)});
    }

    [[nodiscard]] QString minutesOf(OperationId id, SegmentId segment) const
    {
        const Operation* operation = m_car.operation(id);
        if (operation == nullptr)
            return {};
        const auto found = std::ranges::find(operation->segments, segment, &Segment::id);
        return found == operation->segments.end() ? QString()
                                                  : minutesWords(found->measuredMinutes());
    }

    /// Who said it under the second entry of the car, or in a file; empty where it was said here.
    [[nodiscard]] QString whose(const CarriedOver& carried) const
    {
        if (carried.isEmpty())
            return carried.by.isNull()
                       ? QString()
                       : say("by %1, out of an appraisal file").arg(m_book.nameOf(carried.by));
        return carried.by.isNull() ? say("carried over")
                                   : say("carried over from %1").arg(m_book.nameOf(carried.by));
    }

    [[nodiscard]] QString placeWordsOf(const PlaceId& place) const
    {
        return place.isEmpty() ? QString() : placeWords(place, m_book.rules());
    }

    [[nodiscard]] QString places(const std::vector<PlaceId>& places) const
    {
        QStringList all;
        for (const PlaceId& place : places)
            all.append(placeWords(place, m_book.rules()));
        return all.join(QStringLiteral(", "));
    }

    [[nodiscard]] QString promised(QDate date) const
    {
        return date.isValid() ? say("promised %1").arg(m_book.times().date(date)) : QString();
    }

    [[nodiscard]] QString due(QDate date) const
    {
        return date.isValid() ? say("due %1").arg(m_book.times().date(date)) : QString();
    }

    const CarState& m_car;
    const SiteBook& m_book;
};

} // namespace

HistoryWords historyWords(const CarEvent& event, const CarState& car, const SiteBook& book)
{
    return std::visit(Teller(car, book), event);
}

} // namespace ramplight
