// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/say.h"
#include "domain/words.h"
#include "record/photorows.h"
#include "record/recordsections.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight::paper {

namespace {

constexpr double labelWidth = 26 * mm;

/// One operation: what was done, by whom, with what proof.
class WorkWriter
{
public:
    WorkWriter(Flow& flow, const RecordModel& model, const RecordOperation& operation)
        : m_flow(flow)
        , m_model(model)
        , m_operation(operation)
        , m_times(model.rules.timeZone)
    {
    }

    void write()
    {
        const std::size_t begin = m_flow.size();
        QString state = capital(words(m_operation.state));
        if (m_operation.minutes > 0)
            state += QStringLiteral(", %1").arg(durationWords(m_operation.minutes));
        m_flow.subheading(m_operation.title, state);
        why();
        if (!m_operation.leftWords.isEmpty())
            line(say("For the buyer"), m_operation.leftWords);
        for (const QString& advice : m_operation.advice)
            line(say("For you to do"), advice);
        for (const RecordStretch& stretch : m_operation.stretches)
            line(say("Worked"),
                 QStringLiteral("%1, %2 · %3")
                     .arg(m_model.nameOf(stretch.person), m_times.brief(stretch.start),
                          stretchWords(m_model, stretch)));
        figures();
        readings();
        steps();
        signatures();
        m_flow.keepTogether(begin);
        addPhotoRows(m_flow, m_model, m_operation.photos, labelWidth);
    }

private:
    /// The label stands at the first of its lines only.
    void line(const QString& label, const QString& text, Tone tone = Tone::Ink)
    {
        m_flow.row({{0, labelWidth - 2 * mm, label == m_label ? QString() : label, Type::Small,
                     Tone::Muted},
                    {labelWidth, column - labelWidth, text, Type::Small, tone}});
        m_label = label;
    }

    void why()
    {
        QStringList found;
        for (const FindingId id : m_operation.findings)
            for (const RecordFinding& finding : m_model.findings)
                if (finding.id == id)
                    found.append(QStringLiteral("%1 %2").arg(id.value).arg(finding.now().words));
        if (!found.isEmpty())
            line(say("Because of"), found.join(QStringLiteral("; ")));
        if (!m_operation.reason.isEmpty())
            line(say("Because of"), m_operation.reason);
    }

    void figures()
    {
        for (const RecordFigure& figure : m_operation.figures) {
            QString text = say("%1: %2, from %3; entered by %4, %5")
                               .arg(figure.title, figure.valueWords, figure.source,
                                    m_model.nameOf(figure.by), m_times.brief(figure.at));
            if (!figure.correction.isEmpty())
                text += say(". Corrects an earlier one: %1").arg(figure.correction);
            if (!figure.counts)
                text += say(". Counts no longer");
            line(say("Figures"), text, figure.counts ? Tone::Ink : Tone::Muted);
        }
    }

    /// Who took them stands once below those that were taken together.
    void readings()
    {
        const std::vector<RecordReading>& all = m_operation.readings;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const RecordReading& reading = all[i];
            QString text = QStringLiteral("%1: %2").arg(reading.title(), reading.valueWords);
            if (!reading.limitWords.isEmpty())
                text += QStringLiteral(" · %1").arg(reading.limitWords);
            if (reading.outcome == ReadingOutcome::Outside)
                text += say(", outside its limit");
            if (!reading.toolWords.isEmpty())
                text += QStringLiteral(" · %1").arg(reading.toolWords);
            if (!reading.correction.isEmpty())
                text += say(". Corrects an earlier one: %1").arg(reading.correction);
            if (reading.superseded)
                text += say(". Counts no longer");
            line(say("Readings"), text, reading.superseded ? Tone::Muted : Tone::Ink);
            if (i + 1 == all.size() || all[i + 1].by != reading.by || all[i + 1].at != reading.at)
                line(say("Measured by"), QStringLiteral("%1, %2").arg(m_model.nameOf(reading.by),
                                                                      m_times.brief(reading.at)));
        }
    }

    void steps()
    {
        for (const RecordStep& step : m_operation.steps)
            line(say("On the way"),
                 QStringLiteral("%1 · %2, %3")
                     .arg(step.words, m_model.nameOf(step.by), m_times.brief(step.at)));
    }

    void signatures()
    {
        for (const RecordSignature& signature : m_operation.signatures) {
            QString text = QStringLiteral("%1 · %2, %3")
                               .arg(m_model.nameOf(signature.by), words(signature.meaning),
                                    m_times.full(signature.at));
            if (!signature.note.isEmpty())
                text += QStringLiteral(". “%1”").arg(signature.note);
            if (signature.voided)
                text += say(". Void: the work was opened again afterwards");
            line(say("Signed"), text, signature.voided ? Tone::Muted : Tone::Ink);
        }
    }

    Flow& m_flow;
    const RecordModel& m_model;
    const RecordOperation& m_operation;
    RecordTimes m_times;
    QString m_label;
};

bool hasWork(const RecordOperation& operation)
{
    return operation.state == OperationState::Closed || !operation.stretches.empty() ||
           !operation.readings.empty() || !operation.signatures.empty() ||
           !operation.steps.empty() || !operation.photos.empty();
}

} // namespace

void addWhatWasDone(Flow& flow, const RecordModel& model)
{
    flow.heading(say("What was done"));
    bool any = false;
    QStringList waiting;
    for (const RecordOperation& operation : model.operations) {
        if (operation.state == OperationState::Withdrawn && operation.stretches.empty())
            continue;
        if (!hasWork(operation)) {
            if (operation.isOpen())
                waiting.append(operation.title);
            continue;
        }
        any = true;
        WorkWriter(flow, model, operation).write();
        flow.rule();
    }
    if (!any)
        flow.text(say("No work has been done on this car yet."));
    if (!waiting.isEmpty()) {
        flow.gap(1.5 * mm);
        flow.row({{0, column, say("Not begun"), Type::Bold}}, true);
        flow.text(waiting.join(QStringLiteral("; ")) + QLatin1Char('.'), Type::Small);
    }
}

} // namespace ramplight::paper
