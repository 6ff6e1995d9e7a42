// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "rulebreakers.h"

// Each kind of event as by somebody without the right to it; where it needs none of its own, as by
// nobody of the house, or as nothing causes it.
namespace ramplight::test {

namespace {

template <class Event>
KindBreaker ofCar(const char* words, std::function<Forged(Workbench&)> forge)
{
    return {Event::type, kindIn<CarEvent, Event>(), false, words, std::move(forge)};
}

constexpr const char* leftTheHouse = "by somebody who did not work here any more";
constexpr const char* notAppraising = "without the right to appraise";
constexpr const char* notAble = "may not do that work (not-allowed)";

/// The valet of an appraised car, nobody on it.
std::pair<CarId, OperationId> valeting(Workbench& b)
{
    const CarId id = b.appraised();
    return {id, b.open(id, "valet")};
}

/// A stretch of the painter's on it: one that runs, or one that is over.
std::pair<CarId, OperationId> valetedBy(Workbench& b, bool runs)
{
    const auto [id, operation] = valeting(b);
    b.start(id, operation, b.painter);
    b.clock.pass(10);
    if (!runs)
        b.must(b.painter, id, car::PauseWork{operation, {}, StopKind::Paused});
    return {id, operation};
}

SegmentId lastSegment(Workbench& b, const CarId& id)
{
    return SegmentId{b.car(id).nextSegment - 1};
}

std::vector<KindBreaker> ofArrival()
{
    return {
        ofCar<CarArrived>(notAppraising,
                          [](Workbench& b) {
                              return Forged{newCar(b), b.seller, {forgedArrival(b)}};
                          }),
        ofCar<IdentityCorrected>(
            notAppraising,
            [](Workbench& b) {
                const CarId id = b.bringIn();
                IdentityCorrected event{b.car(id).identity, QStringLiteral("misread")};
                event.identity.model = QStringLiteral("Gannet");
                return Forged{id, b.seller, {event}};
            }),
        ofCar<FactsCorrected>(
            notAppraising,
            [](Workbench& b) {
                const CarId id = b.bringIn();
                const CarState car = b.car(id);
                FactsCorrected event{car.facts, car.safetyPlaces, QStringLiteral("counted"), {}};
                event.facts.keys = 1;
                return Forged{id, b.seller, {event}};
            }),
        ofCar<PromiseChanged>(
            notManaging,
            [](Workbench& b) {
                return Forged{b.bringIn(), b.seller, {PromiseChanged{QDate(2031, 4, 1), {}, {}}}};
            }),
        ofCar<AppraisalFinished>(notAppraising,
                                 [](Workbench& b) {
                                     return Forged{b.bringIn(), b.painter, {AppraisalFinished{}}};
                                 }),
    };
}

std::vector<KindBreaker> ofWhatWasSeen()
{
    return {
        ofCar<FindingRecorded>(notAppraising,
                               [](Workbench& b) {
                                   const CarId id = b.bringIn();
                                   return Forged{id, b.seller, {forgedFinding(b, id, "roof")}};
                               }),
        ofCar<FindingCorrected>(notAppraising,
                                [](Workbench& b) {
                                    const CarId id = b.appraised();
                                    FindingCorrected event;
                                    event.finding = b.found(id, "roof", Condition::Stain);
                                    event.data = finding("roof", Condition::Stain);
                                    event.stands = false;
                                    event.reason = QStringLiteral("not there");
                                    return Forged{id, b.painter, {event}};
                                }),
        ofCar<FindingAnswered>("no facts were corrected",
                               [](Workbench& b) {
                                   const CarId id = b.appraised();
                                   FindingAnswered event;
                                   event.finding = b.found(id, "brakes-front", Condition::Worn);
                                   event.rule = QStringLiteral("left");
                                   event.disclosed = true;
                                   return Forged{id, b.manager, {event}};
                               }),
        ofCar<PlacesFoundSound>(
            notAppraising,
            [](Workbench& b) {
                return Forged{b.bringIn(), b.painter, {PlacesFoundSound{{at("brakes-front")}}}};
            }),
        ofCar<TreadRecorded>(
            notAppraising,
            [](Workbench& b) {
                return Forged{
                    b.bringIn(), b.seller, {TreadRecorded{at("tyre-front-left"), {80, 80, 80}}}};
            }),
        ofCar<TyreRecorded>(notAppraising,
                            [](Workbench& b) {
                                TyreRecorded event;
                                event.place = at("tyre-front-left");
                                event.tread = Tread{80, 80, 80};
                                return Forged{b.bringIn(), b.seller, {event}};
                            }),
        ofCar<PaintDepthRecorded>(
            notAppraising,
            [](Workbench& b) {
                return Forged{
                    b.bringIn(), b.seller, {PaintDepthRecorded{at("roof"), {100, 101, 102}}}};
            }),
        ofCar<OdometerRead>(notAppraising,
                            [](Workbench& b) {
                                const PersonId guest = b.hire(QStringLiteral("Guest"), {}, {});
                                OdometerRead event;
                                event.value = 48'100;
                                return Forged{b.bringIn(), guest, {event}};
                            }),
        ofCar<WalkRoundRead>(notAppraising,
                             [](Workbench& b) {
                                 SpokenRound round;
                                 round.transcript = {QStringLiteral("walk")};
                                 return Forged{b.bringIn(), b.painter, {WalkRoundRead{round}}};
                             }),
        ofCar<DraftDecided>(
            notAppraising,
            [](Workbench& b) {
                const CarId id = b.bringIn();
                SpokenRound round;
                round.transcript = {QStringLiteral("walk")};
                round.drafts.resize(1);
                round.drafts.front().data.place = at("roof");
                b.must(b.appraiser, id, car::TakeSpeech{round});
                return Forged{
                    id, b.painter, {DraftDecided{round.transcript, 0, DraftEnd::Dropped, {}}}};
            }),
        ofCar<PhotoAttached>(leftTheHouse,
                             [](Workbench& b) {
                                 PhotoAttached event;
                                 event.photo = b.photo();
                                 return Forged{b.bringIn(), leaver(b), {event}};
                             }),
        ofCar<PhotosRemoved>(notManaging,
                             [](Workbench& b) {
                                 PhotosRemoved event;
                                 event.photos = {b.photo()};
                                 return Forged{b.bringIn(), b.mechanic, {event}};
                             }),
    };
}

std::vector<KindBreaker> ofOperations()
{
    return {
        ofCar<OperationOpened>(
            notAppraising,
            [](Workbench& b) {
                const CarId id = b.appraised();
                return Forged{id, b.seller, {forgedOpening(b, id, "touch-in", "roof")}};
            }),
        ofCar<OperationExtended>(
            notAppraising,
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                return Forged{id, b.seller, {OperationExtended{operation, {}, {}, {}}}};
            }),
        ofCar<OperationNarrowed>(
            "takes a finding from work without a correction",
            [](Workbench& b) {
                const CarId id = b.appraised();
                b.found(id, "brakes-front", Condition::Worn);
                return Forged{
                    id, b.manager, {OperationNarrowed{b.open(id, "brake-pads"), {}, {}, {}}}};
            }),
        ofCar<OperationWithdrawn>(
            notManaging,
            [](Workbench& b) {
                const CarId id = b.appraised();
                b.must(b.painter, id,
                       car::OpenOperation{QStringLiteral("touch-in"), at("roof"),
                                          QStringLiteral("a scratch")});
                return Forged{
                    id,
                    b.painter,
                    {OperationWithdrawn{b.open(id, "touch-in"), QStringLiteral("polished out")}}};
            }),
        ofCar<OperationTakenOut>(
            notAppraising,
            [](Workbench& b) {
                const CarId id = b.bringIn();
                const FindingId found = b.found(id, "roof", Condition::Scratch);
                return Forged{
                    id,
                    b.painter,
                    {OperationTakenOut{b.open(id, "touch-in"), QStringLiteral("small"), {found}}}};
            }),
        ofCar<OperationLeft>(
            notManaging,
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                return Forged{id, b.painter, {OperationLeft{operation, QStringLiteral("dusty")}}};
            }),
        ofCar<OperationReopened>(
            "without the right to check other people's work",
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                b.close(id, operation);
                return Forged{id,
                              b.painter,
                              {OperationReopened{operation, QStringLiteral("a stain"), {}, {}}}};
            }),
        ofCar<OperationBlocked>(
            "without the right to sign work off",
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                return Forged{id,
                              b.seller,
                              {OperationBlocked{operation,
                                                {QStringLiteral("mats"), {}, QDate(2031, 3, 22)}}}};
            }),
        ofCar<OperationUnblocked>("without the right to sign work off",
                                  [](Workbench& b) {
                                      const auto [id, operation] = valeting(b);
                                      b.must(b.painter, id,
                                             car::BlockForPart{operation,
                                                               {QStringLiteral("mats"),
                                                                QStringLiteral("Cove"),
                                                                QDate(2031, 3, 22)}});
                                      return Forged{id, b.seller, {OperationUnblocked{operation}}};
                                  }),
        ofCar<SentOut>("without the right to sign work off",
                       [](Workbench& b) {
                           const auto [id, operation] = valeting(b);
                           return Forged{id, b.seller, {SentOut{operation, coveWorks()}}};
                       }),
        ofCar<ReceivedBack>("without the right to sign work off",
                            [](Workbench& b) {
                                const auto [id, operation] = valeting(b);
                                b.must(b.painter, id, car::SendOut{operation, coveWorks()});
                                return Forged{id, b.seller, {ReceivedBack{operation, {}}}};
                            }),
        ofCar<DueChanged>(
            "without the right to sign work off",
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                b.must(b.painter, id, car::SendOut{operation, coveWorks()});
                return Forged{id, b.seller, {DueChanged{operation, QDate(2031, 4, 1), {}}}};
            }),
    };
}

std::vector<KindBreaker> ofWork()
{
    return {
        ofCar<CautionsRead>(leftTheHouse,
                            [](Workbench& b) {
                                const auto [id, operation] = valeting(b);
                                return Forged{id, leaver(b), {CautionsRead{operation}}};
                            }),
        ofCar<WorkStarted>(
            notAble,
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                return Forged{id, b.seller, {forgedStart(b, id, operation, b.seller)}};
            }),
        ofCar<WorkStopped>(notManaging,
                           [](Workbench& b) {
                               const auto [id, operation] = valetedBy(b, true);
                               return Forged{id,
                                             b.mechanic,
                                             {WorkStopped{operation, lastSegment(b, id),
                                                          b.clock.now(), StopKind::Paused}}};
                           }),
        ofCar<MinutesCorrected>(notManaging,
                                [](Workbench& b) {
                                    const auto [id, operation] = valetedBy(b, false);
                                    return Forged{id,
                                                  b.mechanic,
                                                  {MinutesCorrected{operation, lastSegment(b, id),
                                                                    5, QStringLiteral("less")}}};
                                }),
        ofCar<HandedOver>(notManaging,
                          [](Workbench& b) {
                              const auto [id, operation] = valeting(b);
                              return Forged{id, b.mechanic, {HandedOver{operation, b.painter}}};
                          }),
        ofCar<WorkPlanned>(
            notManaging,
            [](Workbench& b) {
                const auto [id, operation] = valeting(b);
                return Forged{id, b.mechanic, {WorkPlanned{operation, b.painter, {}, {}}}};
            }),
        ofCar<IsolationSet>(
            notAble,
            [](Workbench& b) {
                const CarId id = b.appraised(carWith({Fact::TractionBattery}));
                b.found(id, "traction-battery", Condition::Broken);
                const OperationId operation = startedBy(b, id, "high-voltage-repair", b.mechanic);
                return Forged{id, b.seller, {IsolationSet{operation, QStringLiteral("key safe")}}};
            }),
        ofCar<IsolationLifted>("without the right to check other people's work",
                               [](Workbench& b) {
                                   const CarId id = isolatedCar(b);
                                   const PersonId other = b.hire(
                                       QStringLiteral("Sten"), {Skill::Mechanical}, {Right::Work});
                                   return Forged{id,
                                                 other,
                                                 {IsolationLifted{b.open(id, "high-voltage-repair"),
                                                                  QStringLiteral("by the book")}}};
                               }),
    };
}

std::vector<KindBreaker> ofProof()
{
    return {
        ofCar<FigureSet>("without the right to check other people's work",
                         [](Workbench& b) {
                             const CarId id = b.appraised();
                             return Forged{
                                 id,
                                 b.mechanic,
                                 {FigureSet{b.open(id, "inspection"), QStringLiteral("disc"),
                                            at("brakes-front"), 220, QStringLiteral("a guess")}}};
                         }),
        ofCar<FigureCorrected>(
            "without the right to check other people's work",
            [](Workbench& b) {
                const CarId id = b.appraised();
                const OperationId operation = b.open(id, "inspection");
                b.must(b.manager, id,
                       car::SetFigure{operation, QStringLiteral("disc"), at("brakes-front"), 225,
                                      QStringLiteral("data book")});
                return Forged{id,
                              b.mechanic,
                              {FigureCorrected{operation, QStringLiteral("disc"),
                                               at("brakes-front"), 22, QStringLiteral("data book"),
                                               QStringLiteral("slipped"), b.photo()}}};
            }),
        ofCar<ReadingTaken>(
            notAble,
            [](Workbench& b) {
                const CarId id = b.appraised();
                const OperationId operation = startedBy(b, id, "arrival-check", b.appraiser);
                return Forged{id,
                              b.painter,
                              {forgedReading(b, id, operation, "papers", answer("agree"),
                                             ReadingOutcome::Inside)}};
            }),
        ofCar<ReadingCorrected>(
            "without the right to sign work off",
            [](Workbench& b) {
                const CarId id = b.appraised();
                const OperationId operation = startedBy(b, id, "arrival-check", b.appraiser);
                b.must(b.appraiser, id,
                       car::TakeReading{operation, QStringLiteral("papers"), {}, answer("differ")});
                ReadingCorrected event;
                event.operation = operation;
                event.original = ReadingId{b.car(id).nextReading - 1};
                event.reading = ReadingId{b.car(id).nextReading};
                event.value = answer("agree");
                event.outcome = ReadingOutcome::Inside;
                event.reason = QStringLiteral("slipped");
                return Forged{id, b.seller, {event}};
            }),
        ofCar<OperationSigned>(notAble,
                               [](Workbench& b) {
                                   const auto [id, operation] = valetedBy(b, false);
                                   return Forged{id, b.seller,
                                                 forgedClosing(b, id, operation,
                                                               SignatureMeaning::DidTheWork)};
                               }),
        ofCar<OperationClosed>("closes without a signature",
                               [](Workbench& b) {
                                   const auto [id, operation] = valetedBy(b, false);
                                   return Forged{id, b.painter, {OperationClosed{operation, {}}}};
                               }),
    };
}

std::vector<KindBreaker> ofTheWayOut()
{
    return {
        ofCar<CarMoved>(
            leftTheHouse,
            [](Workbench& b) {
                return Forged{b.bringIn(), leaver(b), {CarMoved{{}, QStringLiteral("lane")}}};
            }),
        ofCar<CarReleased>("without the right to release",
                           [](Workbench& b) {
                               const CarId id = b.appraised();
                               return Forged{id, b.mechanic, {CarReleased{b.car(id).seq}}};
                           }),
        ofCar<CarHeldAgain>(
            "holds again what was not released",
            [](Workbench& b) {
                return Forged{b.bringIn(), b.manager, {CarHeldAgain{QStringLiteral("a feeling")}}};
            }),
        ofCar<CarLeft>(notManaging,
                       [](Workbench& b) {
                           return Forged{b.bringIn(),
                                         b.seller,
                                         {CarLeft{LeavingHow::Trade, QStringLiteral("sold"), {}}}};
                       }),
        ofCar<CarBroughtBack>(
            notManaging,
            [](Workbench& b) {
                const CarId id = b.bringIn();
                b.must(b.manager, id,
                       car::LeaveUnreleased{LeavingHow::Trade, QStringLiteral("rust")});
                return Forged{id, b.seller, {CarBroughtBack{QStringLiteral("wanted")}}};
            }),
        ofCar<DuplicateLinked>(notAppraising,
                               [](Workbench& b) {
                                   const CarId other = b.bringIn();
                                   return Forged{b.bringIn(),
                                                 b.painter,
                                                 {DuplicateLinked{other, QStringLiteral("K1")}}};
                               }),
    };
}

} // namespace

std::vector<KindBreaker> kindBreakers()
{
    std::vector<KindBreaker> all;
    for (const auto& part : {ofArrival(), ofWhatWasSeen(), ofOperations(), ofWork(), ofProof(),
                             ofTheWayOut(), siteKindBreakers()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

} // namespace ramplight::test
