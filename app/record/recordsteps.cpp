// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/recordsteps.h"

#include "domain/factwords.h"
#include "domain/retention.h"
#include "domain/say.h"
#include "domain/words.h"
#include "record/recordwords.h"

#include <algorithm>

namespace ramplight {

namespace {

QString with(const QString& text, const QString& rest)
{
    return rest.isEmpty() ? text : QStringLiteral("%1: %2").arg(text, rest);
}

template <class Event>
QString typeOf(const Event&)
{
    return QString::fromLatin1(Event::type);
}

/// Takes from each entry what concerns one operation.
class OperationReader
{
public:
    explicit OperationReader(RecordOperation& operation)
        : m_operation(operation)
    {
    }

    void read(const CarEnvelope& entry)
    {
        m_entry = &entry;
        std::visit(*this, entry.event);
    }

    void operator()(const CautionsRead& e)
    {
        if (e.operation == m_operation.id &&
            std::ranges::find(m_operation.cautionsRead, m_entry->by, &RecordDeed::by) ==
                m_operation.cautionsRead.end())
            m_operation.cautionsRead.push_back(deed());
    }
    void operator()(const OperationClosed& e)
    {
        if (e.operation == m_operation.id)
            m_operation.ended = deed();
    }
    void operator()(const OperationLeft& e)
    {
        if (e.operation == m_operation.id)
            m_operation.ended = deed();
    }
    void operator()(const OperationWithdrawn& e)
    {
        if (e.operation == m_operation.id)
            m_operation.ended = deed();
    }
    void operator()(const OperationTakenOut& e)
    {
        if (e.operation == m_operation.id)
            m_operation.ended = deed();
    }
    void operator()(const OperationReopened& e)
    {
        if (e.operation != m_operation.id)
            return;
        m_operation.ended = {};
        step(e, e.reason, with(say("Opened again"), e.reason));
    }
    void operator()(const OperationBlocked& e)
    {
        if (e.operation != m_operation.id)
            return;
        QString words = e.part.part;
        if (!e.part.supplier.isEmpty())
            words += say(", ordered with %1").arg(e.part.supplier);
        if (e.part.due.isValid())
            words += say(", due %1").arg(RecordTimes::date(e.part.due));
        step(e, e.part.part, with(say("Waited for a part"), words));
    }
    void operator()(const OperationUnblocked& e)
    {
        if (e.operation == m_operation.id)
            step(e, {}, say("Waits no longer"));
    }
    void operator()(const SentOut& e)
    {
        if (e.operation != m_operation.id)
            return;
        QString words = e.work.firm;
        if (!e.work.document.isEmpty())
            words += QStringLiteral(", %1").arg(e.work.document);
        if (e.work.dueBack.isValid())
            words += say(", due back %1").arg(RecordTimes::date(e.work.dueBack));
        if (e.work.keys > 0)
            words += say(", keys given along: %1").arg(e.work.keys);
        step(e, e.work.firm, with(say("Sent to an outside firm"), words));
    }
    void operator()(const ReceivedBack& e)
    {
        if (e.operation != m_operation.id)
            return;
        QString words = say("Received back");
        if (e.keys)
            words += say(", keys back: %1").arg(*e.keys);
        step(e, e.document, with(words, e.document));
    }
    void operator()(const DueChanged& e)
    {
        if (e.operation != m_operation.id)
            return;
        const QString words = say("Due on %1 instead").arg(RecordTimes::date(e.due));
        step(e, e.reason, with(words, e.reason));
    }
    void operator()(const IsolationSet& e)
    {
        if (e.operation == m_operation.id)
            step(e, e.lockKeptAt, say("High voltage isolated, lock kept at: %1").arg(e.lockKeptAt));
    }
    void operator()(const IsolationLifted& e)
    {
        if (e.operation == m_operation.id)
            step(e, e.procedure, with(say("Isolation lifted"), e.procedure));
    }
    template <class Other>
    void operator()(const Other&)
    {
    }

private:
    [[nodiscard]] RecordDeed deed() const { return {m_entry->by, m_entry->at}; }
    template <class Event>
    void step(const Event& event, const QString& text, const QString& words)
    {
        m_operation.steps.push_back({m_entry->at, m_entry->by, typeOf(event), text, words});
    }

    RecordOperation& m_operation;
    const CarEnvelope* m_entry = nullptr;
};

/// Takes from each entry what concerns the whole car.
class CarReader
{
public:
    void read(const CarEnvelope& entry)
    {
        m_entry = &entry;
        std::visit(*this, entry.event);
    }
    [[nodiscard]] std::vector<RecordStep> take() { return std::move(m_steps); }

    void operator()(const CarArrived& e)
    {
        m_identity = e.identity;
        m_facts = e.facts;
    }
    void operator()(const IdentityCorrected& e)
    {
        QStringList changes;
        const auto compare = [&](const QString& was, const QString& is) {
            if (was != is)
                changes.append(was.isEmpty() ? is : say("%1 instead of %2").arg(is, was));
        };
        compare(m_identity.stockNumber, e.identity.stockNumber);
        compare(m_identity.registration, e.identity.registration);
        compare(m_identity.vin, e.identity.vin);
        compare(carName(m_identity), carName(e.identity));
        compare(words(m_identity.shape), words(e.identity.shape));
        compare(m_identity.colour, e.identity.colour);
        compare(m_identity.paintCode, e.identity.paintCode);
        m_identity = e.identity;
        QString told = with(say("Identity corrected"), changes.join(QStringLiteral(", ")));
        if (!e.reason.isEmpty())
            told += QStringLiteral(" (%1)").arg(e.reason);
        step(e, e.reason, told);
    }
    void operator()(const FactsCorrected& e)
    {
        const QStringList changes = changeWords(m_facts, e.facts);
        m_facts = e.facts;
        QString told =
            with(e.carriedFrom.isEmpty() ? say("Facts corrected") : say("Facts carried over"),
                 changes.join(QStringLiteral(", ")));
        if (!e.reason.isEmpty())
            told += QStringLiteral(" (%1)").arg(e.reason);
        step(e, e.reason, told);
    }
    void operator()(const CarReleased& e) { step(e, {}, say("Released to sale")); }
    void operator()(const CarHeldAgain& e)
    {
        step(e, e.reason, with(say("Held again after its release"), e.reason));
    }
    void operator()(const CarLeft& e)
    {
        step(e, e.reason,
             with(say("Withdrawn from sale preparation, %1").arg(words(e.how)), e.reason));
    }
    void operator()(const CarBroughtBack& e)
    {
        step(e, e.reason, with(say("Brought back into preparation"), e.reason));
    }
    void operator()(const DuplicateLinked& e)
    {
        step(e, e.otherStockNumber,
             say("Had been entered twice; the evidence of %1 was carried over")
                 .arg(e.otherStockNumber));
    }
    void operator()(const PhotosRemoved& e)
    {
        step(e, QString::number(e.years),
             say("%1 photos removed, kept for %2 as the house asked")
                 .arg(e.photos.size())
                 .arg(yearsWords(e.years)));
    }
    template <class Other>
    void operator()(const Other&)
    {
    }

private:
    template <class Event>
    void step(const Event& event, const QString& text, const QString& words)
    {
        m_steps.push_back({m_entry->at, m_entry->by, typeOf(event), text, words});
    }

    Identity m_identity;
    CarFacts m_facts;
    std::vector<RecordStep> m_steps;
    const CarEnvelope* m_entry = nullptr;
};

} // namespace

void fillFromHistory(RecordOperation& operation, const std::vector<CarEnvelope>& history,
                     qint64 upTo)
{
    OperationReader reader(operation);
    for (const CarEnvelope& entry : history)
        if (entry.seq <= upTo)
            reader.read(entry);
}

std::vector<RecordStep> stepsOfCar(const std::vector<CarEnvelope>& history, qint64 upTo)
{
    CarReader reader;
    for (const CarEnvelope& entry : history)
        if (entry.seq <= upTo)
            reader.read(entry);
    return reader.take();
}

} // namespace ramplight
