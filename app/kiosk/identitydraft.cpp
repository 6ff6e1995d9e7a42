// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/identitydraft.h"

#include "domain/vin.h"
#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/enumchoices.h"
#include "kiosk/typednumber.h"

namespace ramplight {

namespace {

/// As it was where the words are the same: not every size is read out of its words again.
TyreFitment fitmentOf(const QString& typed, const TyreFitment& before)
{
    if (typed.simplified() == fitmentWords(before))
        return before;
    const TyreFitment asTyped{typed};
    return tidied(asTyped).value_or(asTyped);
}

} // namespace

IdentityDraft::IdentityDraft(QObject* parent)
    : QObject(parent)
    , m_shapes(false)
    , m_facts(true)
{
    m_shapes.offer(rowsOf<BodyShape>());
    m_facts.offer(rowsOf<Fact>());
    connect(&m_shapes, &Choices::chosenChanged, this, &IdentityDraft::changed);
    connect(&m_facts, &Choices::chosenChanged, this, &IdentityDraft::changed);
}

QString IdentityDraft::fault() const
{
    if (m_stockNumber.trimmed().isEmpty())
        return tr("The stock number is missing.");
    if (m_shapes.current().isEmpty())
        return tr("Choose the shape of the body.");
    if (!vinFault().isEmpty())
        return tr("The VIN is not whole yet.");
    const auto wrong = [](const QString& text) {
        return !text.trimmed().isEmpty() && !typedNumber(text, 0);
    };
    if (wrong(m_odometer))
        return tr("The odometer is a whole number.");
    if (wrong(m_keys))
        return tr("The keys are a whole number.");
    if (wrong(m_testMonths))
        return tr("The months on the test certificate are a whole number.");
    for (const QString& typed : {m_frontTyre, m_rearTyre})
        if (const auto tyre = tidied(TyreFitment{typed}); !tyre)
            return tr("The tyres: %1.").arg(tyre.error());
    return {};
}

bool IdentityDraft::contradicts() const
{
    return contradict(m_before, carFacts());
}

QString IdentityDraft::vinFault() const
{
    if (m_vin.trimmed().isEmpty())
        return {};
    const auto vin = readVin(m_vin);
    return vin ? QString() : words(vin.error());
}

QString IdentityDraft::vinNote() const
{
    const auto vin = readVin(m_vin);
    return vin ? checkDigitNote(*vin) : QString();
}

void IdentityDraft::clear()
{
    start({}, {});
    m_shapes.clear();
}

bool IdentityDraft::isBegun() const
{
    for (const QString& text :
         {m_stockNumber, m_registration, m_make, m_model, m_colour, m_paintCode, m_odometer, m_keys,
          m_testMonths, m_frontTyre, m_rearTyre})
        if (!text.isEmpty())
            return true;
    return !m_shapes.current().isEmpty() || !m_facts.chosen().isEmpty();
}

Identity IdentityDraft::identity() const
{
    Identity identity;
    identity.stockNumber = m_stockNumber.trimmed().toUpper();
    identity.registration = m_registration.simplified().toUpper();
    identity.vin = oneSpelling(m_vin);
    identity.make = m_make.trimmed();
    identity.model = m_model.trimmed();
    identity.shape = fromName<BodyShape>(m_shapes.current()).value_or(BodyShape::Hatch);
    identity.colour = m_colour.trimmed();
    identity.paintCode = m_paintCode.trimmed();
    return identity;
}

CarFacts IdentityDraft::carFacts() const
{
    CarFacts facts;
    for (const QString& fact : m_facts.chosen())
        if (const auto known = fromName<Fact>(fact))
            facts.has.push_back(*known);
    facts.odometer = typedNumber(m_odometer, 0).value_or(0);
    facts.odometerUnit = m_kilometres ? DistanceUnit::Kilometres : DistanceUnit::Miles;
    facts.keys = typedNumber(m_keys, 0).value_or(0);
    if (const auto months = typedNumber(m_testMonths, 0))
        facts.testCertificateMonths = *months;
    facts.frontTyre = fitmentOf(m_frontTyre, m_before.frontTyre);
    facts.rearTyre = fitmentOf(m_rearTyre, m_before.rearTyre);
    return facts;
}

void IdentityDraft::start(const Identity& identity, const CarFacts& facts)
{
    m_stockNumber = identity.stockNumber;
    m_registration = identity.registration;
    m_vin = identity.vin;
    m_make = identity.make;
    m_model = identity.model;
    m_colour = identity.colour;
    m_paintCode = identity.paintCode;
    m_odometer = facts.odometer > 0 ? QString::number(facts.odometer) : QString();
    m_kilometres = facts.odometerUnit == DistanceUnit::Kilometres;
    m_keys = facts.keys > 0 ? QString::number(facts.keys) : QString();
    m_testMonths =
        facts.testCertificateMonths ? QString::number(*facts.testCertificateMonths) : QString();
    m_frontTyre = fitmentWords(facts.frontTyre);
    m_rearTyre = fitmentWords(facts.rearTyre);
    m_identityBefore = identity;
    m_before = facts;
    m_shapes.setChosen({nameOf(identity.shape)});
    QStringList has;
    for (const Fact fact : facts.has)
        has.append(nameOf(fact));
    m_facts.setChosen(has);
    emit changed();
}

} // namespace ramplight
