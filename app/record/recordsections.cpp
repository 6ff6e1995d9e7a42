// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordsections.h"

#include "domain/say.h"
#include "domain/words.h"
#include "record/measuredsections.h"
#include "record/photorows.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

QString deedWords(const RecordModel& model, const RecordDeed& deed)
{
    return QStringLiteral("%1, %2").arg(model.nameOf(deed.by),
                                        RecordTimes(model.rules.timeZone).full(deed.at));
}

QString placesOf(const RecordModel& model, const std::vector<PlaceId>& places)
{
    QStringList titles;
    for (const PlaceId& place : places)
        titles.append(placeWords(place, model.rules));
    return titles.join(QStringLiteral(", "));
}

/// The readings that count, one line for each thing that was read: places side by side where the
/// limits are the same.
QStringList readingLines(const RecordOperation& operation)
{
    struct Line
    {
        const RecordReading* first = nullptr;
        QStringList values;
    };
    std::vector<Line> lines;
    for (const RecordReading& reading : operation.readings) {
        if (reading.superseded)
            continue;
        // "Horn: sounds", not "Horn: horn: sounds".
        QString value = reading.namesItsPlace() ? reading.valueWords
                        : reading.value.number
                            ? QStringLiteral("%1 %2").arg(reading.placeWords, reading.valueWords)
                            : QStringLiteral("%1: %2").arg(reading.placeWords, reading.valueWords);
        if (reading.outcome == ReadingOutcome::Outside)
            value += say(", outside its limit");
        const auto same = std::ranges::find_if(lines, [&](const Line& line) {
            return line.first->key == reading.key && line.first->limitWords == reading.limitWords &&
                   line.first->toolWords == reading.toolWords;
        });
        if (same != lines.end())
            same->values.append(value);
        else
            lines.push_back({&reading, {value}});
    }
    QStringList texts;
    for (const Line& line : lines) {
        QString text =
            QStringLiteral("%1: %2").arg(line.first->name, line.values.join(QStringLiteral("; ")));
        if (!line.first->limitWords.isEmpty())
            text += QStringLiteral(" · %1").arg(line.first->limitWords);
        if (!line.first->toolWords.isEmpty())
            text += QStringLiteral(" · %1").arg(line.first->toolWords);
        texts.append(text);
    }
    return texts;
}

/// Wrong first words of a finding, and who put them right.
void addCorrections(Flow& flow, const RecordModel& model, const RecordFinding& finding, double x)
{
    const RecordTimes times(model.rules.timeZone);
    for (std::size_t i = 1; i < finding.versions.size(); ++i) {
        const RecordFindingVersion& was = finding.versions[i - 1];
        const RecordFindingVersion& is = finding.versions[i];
        const QString change =
            is.stands ? say("First recorded as “%1” by %2, %3. Corrected by %4, %5: %6")
                      : say("Recorded as “%1” by %2, %3. Found not to be there by %4, %5: %6");
        flow.keepWithNext();
        flow.row({{x, column - x,
                   change.arg(was.words, model.nameOf(was.by), times.brief(was.at),
                              model.nameOf(is.by), times.brief(is.at), is.reason),
                   Type::Small, Tone::Muted}});
    }
}

constexpr double numberWidth = 9 * mm;

void addFinding(Flow& flow, const RecordModel& model, const RecordFinding& finding)
{
    const std::size_t begin = flow.size();
    const RecordFindingVersion& now = finding.now();
    constexpr double half = 84 * mm;
    QString found = now.words;
    if (!now.data.note.isEmpty())
        found += QStringLiteral(". %1").arg(capital(now.data.note));
    const Tone tone = now.stands ? Tone::Ink : Tone::Muted;
    flow.row({{0, numberWidth, QString::number(finding.id.value), Type::Bold, tone},
              {numberWidth, half - 4 * mm, found, Type::Body, tone},
              {numberWidth + half, column - numberWidth - half,
               capital(outcomeWords(model, finding)), Type::Body, tone}});
    if (!finding.during.isNull())
        if (const RecordOperation* during = model.operation(finding.during)) {
            flow.keepWithNext();
            flow.row({{numberWidth, column - numberWidth,
                       say("Found by %1 while working on: %2")
                           .arg(model.nameOf(finding.versions.front().by), during->title),
                       Type::Small, Tone::Muted}});
        }
    addCorrections(flow, model, finding, numberWidth);
    flow.keepTogether(begin);
    flow.rule();
}

/// Photos that no work shows, after the list, so that the list stays short.
void addFindingPhotos(Flow& flow, const RecordModel& model)
{
    for (const RecordFinding& finding : model.findings) {
        if (finding.photos.empty())
            continue;
        flow.gap(1.5 * mm);
        flow.row({{0, numberWidth, QString::number(finding.id.value), Type::Bold},
                  {numberWidth, column - numberWidth, finding.versions.front().words, Type::Body}},
                 true);
        addPhotoRows(flow, model, finding.photos, numberWidth);
    }
    if (model.photos.empty())
        return;
    flow.gap(1.5 * mm);
    flow.row({{0, column, say("Photos of the car"), Type::Bold}}, true);
    addPhotoRows(flow, model, model.photos, 0);
}

} // namespace

void addWhatIsLeft(Flow& flow, const RecordModel& model)
{
    flow.heading(say("What is left as it is"));
    bool any = false;
    for (const RecordOperation& operation : model.operations)
        if (operation.state == OperationState::LeftAsIs) {
            any = true;
            flow.row({{0, column, capital(operation.leftWords), Type::Bold}}, true);
            flow.row({{0, column,
                       say("%1. Not done, decided by %2.")
                           .arg(operation.title, deedWords(model, operation.ended)),
                       Type::Small, Tone::Muted}});
            flow.gap(1.2 * mm);
        }
    for (const RecordFinding& finding : model.findings)
        if (finding.answeredBy.empty() && outcomeOf(model, finding) == FindingOutcome::Left) {
            any = true;
            flow.row({{0, column, finding.now().words, Type::Bold}}, true);
            QString line = say("Number %1 on the drawing and in the list.").arg(finding.id.value);
            if (!finding.now().data.note.isEmpty())
                line = QStringLiteral("%1. %2").arg(capital(finding.now().data.note), line);
            flow.row({{0, column, line, Type::Small, Tone::Muted}});
            flow.gap(1.2 * mm);
        }
    if (!any)
        flow.text(say("Nothing that was found has been left as it is."));
}

void addHolds(Flow& flow, const RecordModel& model)
{
    if (model.holds.empty())
        return;
    flow.heading(say("What holds this car"));
    for (const RecordHold& hold : model.holds)
        flow.row({{0, 24 * mm, hold.safety ? say("Safety") : say("Other work"),
                   hold.safety ? Type::Bold : Type::Body},
                  {24 * mm, column - 24 * mm, hold.words, Type::Body}});
}

void addSafetyItems(Flow& flow, const RecordModel& model)
{
    constexpr double names = 118 * mm;
    constexpr double inset = 4 * mm;
    bool any = false;
    for (const RecordOperation& operation : model.operations) {
        if (!operation.safety || operation.state == OperationState::Withdrawn)
            continue;
        if (!any) {
            flow.heading(say("Safety items"));
            flow.row({{0, names, say("Item and its readings"), Type::Small, Tone::Muted},
                      {names, column - names, say("Names under it"), Type::Small, Tone::Muted}},
                     true);
            flow.rule(true);
            any = true;
        }
        QStringList signers;
        for (const RecordSignature& signature : operation.signatures)
            if (!signature.voided)
                signers.append(QStringLiteral("%1, %2").arg(model.nameOf(signature.by),
                                                            words(signature.meaning)));
        const QStringList readings = readingLines(operation);
        const std::size_t begin = flow.size();
        flow.row({{0, names - inset,
                   QStringLiteral("%1 · %2").arg(operation.title, words(operation.state)),
                   Type::SmallBold},
                  {names, column - names,
                   signers.isEmpty() ? say("nobody yet") : signers.join(QLatin1Char('\n')),
                   Type::Small}},
                 true);
        for (const QString& reading : readings)
            flow.row({{inset, column - inset, reading, Type::Small}});
        if (readings.isEmpty())
            flow.row({{inset, column - inset, say("no readings"), Type::Small, Tone::Muted}});
        flow.keepTogether(begin);
        flow.rule();
    }
}

void addWhatWasFound(Flow& flow, const RecordModel& model)
{
    flow.heading(say("What was found"));
    if (model.findings.empty())
        flow.text(say("Nothing was found."));
    for (const RecordFinding& finding : model.findings)
        addFinding(flow, model, finding);
    addTyrePlan(flow, model);
    addPaint(flow, model);
    addOdometer(flow, model);
    if (!model.sound.empty()) {
        flow.gap(1.5 * mm);
        flow.row({{0, column, say("Looked at and in good order"), Type::Bold}}, true);
        flow.text(capital(placesOf(model, model.sound)) + QLatin1Char('.'), Type::Small);
    }
    if (!model.notLookedAt.empty()) {
        flow.gap(1.5 * mm);
        flow.row({{0, column, say("Not looked at"), Type::Bold}}, true);
        flow.text(capital(placesOf(model, model.notLookedAt)) + QLatin1Char('.'), Type::Small);
    }
    addFindingPhotos(flow, model);
}

void addNotDone(Flow& flow, const RecordModel& model)
{
    bool any = false;
    for (const RecordOperation& operation : model.operations) {
        if (operation.state != OperationState::Withdrawn)
            continue;
        if (!any)
            flow.heading(say("Withdrawn: found not to be needed"));
        any = true;
        flow.row({{0, column, operation.title, Type::Bold}}, true);
        flow.row({{0, column,
                   QStringLiteral("%1. %2").arg(capital(operation.withdrawnWhy),
                                                deedWords(model, operation.ended)),
                   Type::Small, Tone::Muted}});
        flow.gap(1 * mm);
    }
}

void addCautions(Flow& flow, const RecordModel& model)
{
    std::vector<QStringList> told;
    for (const RecordOperation& operation : model.operations) {
        if (operation.cautions.isEmpty() || operation.cautionsRead.empty())
            continue;
        if (told.empty())
            flow.heading(say("Cautions that were read before work"));
        // Four wheels have the same cautions; they are printed once.
        const bool again = std::ranges::find(told, operation.cautions) != told.end();
        told.push_back(operation.cautions);
        QStringList readers;
        for (const RecordDeed& deed : operation.cautionsRead)
            readers.append(deedWords(model, deed));
        flow.row({{0, column, operation.title, Type::Bold}}, true);
        flow.row({{0, column, say("Cautions read by %1").arg(readers.join(QStringLiteral("; "))),
                   Type::Small}},
                 true);
        if (again)
            flow.row({{0, column, say("The same cautions as above."), Type::Small, Tone::Muted}});
        else
            for (const QString& caution : operation.cautions)
                flow.row(
                    {{0, column, QStringLiteral("– %1").arg(caution), Type::Small, Tone::Muted}});
        flow.gap(1.2 * mm);
    }
}

void addClosing(Flow& flow, const RecordModel& model)
{
    if (!model.steps.empty()) {
        flow.heading(say("This car's way through the workshop"));
        for (const RecordStep& step : model.steps)
            flow.row(
                {{0, 52 * mm, RecordTimes(model.rules.timeZone).full(step.at), Type::Small,
                  Tone::Muted},
                 {52 * mm, column - 52 * mm,
                  QStringLiteral("%1 · %2").arg(step.words, model.nameOf(step.by)), Type::Small}});
    }
    const std::size_t release = flow.size();
    flow.heading(say("Release"));
    if (model.status == CarStatus::Released && model.released) {
        flow.row({{0, column, say("Released to sale"), Type::Bold}}, true);
        flow.text(say("Signed with a PIN by %1.").arg(deedWords(model, *model.released)));
    } else {
        flow.row({{0, column, statusTitle(model), Type::Bold}}, true);
        flow.text(statusSentence(model));
    }
    flow.gap(3 * mm);
    flow.text(say("This record says what was found, which items were closed, by whom and with what "
                  "readings. It does not replace a test or an inspection of the car."),
              Type::Small, Tone::Ink);
    if (!model.standingLine.isEmpty()) {
        flow.gap(1 * mm);
        flow.text(model.standingLine, Type::Small, Tone::Ink);
    }
    flow.gap(1 * mm);
    flow.text(say("Fingerprint: %1. The workshop can check this file against its ledger at any "
                  "time: ramplight verify --record FILE.")
                  .arg(model.fingerprint),
              Type::Small, Tone::Muted);
    flow.keepTogether(release);
}

void addSections(Flow& flow, const RecordModel& model)
{
    flow.text(say("From here on: all that the workshop wrote down about this car."), Type::Body,
              Tone::Muted);
    if (model.holds.size() > 5)
        addHolds(flow, model);
    addWhatIsLeft(flow, model);
    addWhatWasFound(flow, model);
    addSafetyItems(flow, model);
    addWhatWasDone(flow, model);
    addNotDone(flow, model);
    addCautions(flow, model);
    addClosing(flow, model);
}

} // namespace ramplight::paper
