// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"

// Events that put a name under something or move a car on: signatures, closing, release, leaving.
// How events are made and changed: carevents.h.
namespace ramplight {

struct OperationSigned
{
    static constexpr const char* type = "operation-signed";
    OperationId operation;
    SignatureMeaning meaning = SignatureMeaning::DidTheWork;
    int minutes = 0;
    QString note;
    static constexpr auto fields = fieldList(field("operation", &OperationSigned::operation),
                                             field("meaning", &OperationSigned::meaning),
                                             field("minutes", &OperationSigned::minutes),
                                             field("note", &OperationSigned::note));
    friend bool operator==(const OperationSigned&, const OperationSigned&) = default;
};

struct OperationClosed
{
    static constexpr const char* type = "operation-closed";
    OperationId operation;
    Moment waitUntil;
    static constexpr auto fields = fieldList(field("operation", &OperationClosed::operation),
                                             field("waitUntil", &OperationClosed::waitUntil));
    friend bool operator==(const OperationClosed&, const OperationClosed&) = default;
};

/// Its signatures are void; they stay on record.
struct OperationReopened
{
    static constexpr const char* type = "operation-reopened";
    OperationId operation;
    QString reason;
    PersonId backTo;
    std::vector<OperationId> restsOn;
    static constexpr auto fields = fieldList(field("operation", &OperationReopened::operation),
                                             field("reason", &OperationReopened::reason),
                                             field("backTo", &OperationReopened::backTo),
                                             field("restsOn", &OperationReopened::restsOn));
    friend bool operator==(const OperationReopened&, const OperationReopened&) = default;
};

struct OperationLeft
{
    static constexpr const char* type = "operation-left";
    OperationId operation;
    QString words;
    static constexpr auto fields = fieldList(field("operation", &OperationLeft::operation),
                                             field("words", &OperationLeft::words));
    friend bool operator==(const OperationLeft&, const OperationLeft&) = default;
};

struct CarMoved
{
    static constexpr const char* type = "car-moved";
    BayId bay;
    QString parking;
    static constexpr auto fields =
        fieldList(field("bay", &CarMoved::bay), field("parking", &CarMoved::parking));
    friend bool operator==(const CarMoved&, const CarMoved&) = default;
};

struct CarReleased
{
    static constexpr const char* type = "car-released";
    qint64 upTo = 0;
    static constexpr auto fields = fieldList(field("upTo", &CarReleased::upTo));
    friend bool operator==(const CarReleased&, const CarReleased&) = default;
};

struct CarHeldAgain
{
    static constexpr const char* type = "car-held-again";
    QString reason;
    static constexpr auto fields = fieldList(field("reason", &CarHeldAgain::reason));
    friend bool operator==(const CarHeldAgain&, const CarHeldAgain&) = default;
};

struct CarLeft
{
    static constexpr const char* type = "car-left";
    LeavingHow how = LeavingHow::Trade;
    QString reason;
    CarId sameAs;
    static constexpr auto fields =
        fieldList(field("how", &CarLeft::how), field("reason", &CarLeft::reason),
                  field("sameAs", &CarLeft::sameAs));
    friend bool operator==(const CarLeft&, const CarLeft&) = default;
};

struct CarBroughtBack
{
    static constexpr const char* type = "car-brought-back";
    QString reason;
    static constexpr auto fields = fieldList(field("reason", &CarBroughtBack::reason));
    friend bool operator==(const CarBroughtBack&, const CarBroughtBack&) = default;
};

/// Evidence of a car entered twice was carried over to this one.
struct DuplicateLinked
{
    static constexpr const char* type = "duplicate-linked";
    CarId other;
    QString otherStockNumber;
    static constexpr auto fields =
        fieldList(field("other", &DuplicateLinked::other),
                  field("otherStockNumber", &DuplicateLinked::otherStockNumber));
    friend bool operator==(const DuplicateLinked&, const DuplicateLinked&) = default;
};

/// Kept for the years that the house rules ask, and no longer. Their ids stay where they were
/// named.
struct PhotosRemoved
{
    static constexpr const char* type = "photos-removed";
    std::vector<PhotoId> photos;
    int years = 0; ///< after which, by the rule of that day
    static constexpr auto fields =
        fieldList(field("photos", &PhotosRemoved::photos), field("years", &PhotosRemoved::years));
    friend bool operator==(const PhotosRemoved&, const PhotosRemoved&) = default;
};

} // namespace ramplight
