// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"

#include <QDateTime>
#include <QtQmlIntegration>

// The lists of the car screen and of the operation screen. Roles are the names of the rows'
// members. GUI thread.
namespace ramplight {

struct OperationRow
{
    int operationId = 0;
    QString title;
    QString placeId;
    QString placeWords; ///< section heading: the list is ordered by place, safety first
    int band = 0;       ///< Wall.Band by its state
    QString stateWord;
    bool open = true;
    bool safety = false;
    bool check = false;
    QString skill;
    QString skillWords;
    QString who;            ///< whose timer runs, or to whom it was handed
    QString minutesWords;   ///< "38 min of usually 1 h 30"
    QString whyWords;       ///< why it exists: "from the appraisal: kerbed, moderate"
    QString notYetWords;    ///< why it cannot start yet; empty
    QString situationWords; ///< part and date, firm and date, sent back because; empty
    QString signedWords;    ///< "Did the work: Ines, today 14:20"; empty

    [[nodiscard]] int key() const { return operationId; }
    friend bool operator==(const OperationRow&, const OperationRow&) = default;
};

struct FindingRow
{
    int findingId = 0;
    QString placeId;
    QString words;
    QString quote;
    QString byWords;    ///< "Marek, Mon 09:10"
    bool stands = true; ///< false: corrected to "is not there"
    bool corrected = false;
    QString correctedWords; ///< reason and who
    bool undecided = false; ///< nobody has decided what is done about it
    bool disclosed = false; ///< left as it is and printed for the buyer
    QString answerWords;    ///< the operations that answer it, or "left and disclosed"
    QStringList photoUrls;

    [[nodiscard]] int key() const { return findingId; }
    friend bool operator==(const FindingRow&, const FindingRow&) = default;
};

struct HoldRow
{
    QString holdId;
    QString kind; ///< id of the hold's kind, e.g. "safety-operation"
    QString words;
    bool safety = false;
    int operationId = 0; ///< the way to it; 0: none
    int findingId = 0;
    QString placeId;
    QString opensKind; ///< the work that would answer it, where none is open; may be empty
    QString wayWords;  ///< what the button says: "Open it", "Finish the appraisal", ...

    [[nodiscard]] QString key() const { return holdId; }
    friend bool operator==(const HoldRow&, const HoldRow&) = default;
};

struct HistoryRow
{
    qlonglong seq = 0;
    QString dayWords; ///< section heading: "today", "Thu"
    QString timeWords;
    QString who;
    QString what;
    QString detail;
    int operationId = 0;

    [[nodiscard]] qlonglong key() const { return seq; }
    friend bool operator==(const HistoryRow&, const HistoryRow&) = default;
};

struct PhotoRow
{
    QString photoKey;
    QString photoId;
    QString url;     ///< for an Image: a thumbnail of the panel size
    QString fullUrl; ///< the whole picture
    QString moment;  ///< before, during, after
    QString momentWords;
    QString placeWords;
    QString byWords; ///< "Ines, 14:20"
    int operationId = 0;
    int findingId = 0;
    QString goneWords = {}; ///< "removed after 6 years": there is no picture any more

    [[nodiscard]] QString key() const { return photoKey; }
    friend bool operator==(const PhotoRow&, const PhotoRow&) = default;
};

struct PhotoNeedRow
{
    QString needId;
    QString moment;      ///< for OperationView.attachFiles / attachFrame
    int rank = 0;        ///< among those of its moment, from 0; for OperationView.guideFor
    QString momentWords; ///< "before"
    QString title;
    bool present = false;
    QString url;            ///< of the one that is there
    QString whenWords;      ///< "09:14"
    QString goneWords = {}; ///< as of PhotoRow

    [[nodiscard]] QString key() const { return needId; }
    friend bool operator==(const PhotoNeedRow&, const PhotoNeedRow&) = default;
};

struct SpanRow
{
    int segmentId = 0;
    int personId = 0;
    QString who;
    QString spanWords; ///< "today 13:22 to 14:00"
    int minutes = 0;   ///< as it counts
    int measured = 0;
    QString minutesWords;
    bool running = false;
    bool corrected = false;
    QString correctedWords; ///< "measured 4 h 10; Ines: forgot to stop"
    QString clockWords;     ///< that the clock was set; empty: it was not
    /// Far longer than usual, and nobody has said how long it really was.
    bool overlong = false;

    [[nodiscard]] int key() const { return segmentId; }
    friend bool operator==(const SpanRow&, const SpanRow&) = default;
};

struct ReadingRow
{
    QString rowId; ///< for OperationView.takeReading and setFigure
    QString readingKey;
    QString title;
    QString placeId;
    QString placeWords; ///< empty when it is the operation's own
    int input = 0;      ///< ReadingKinds.Input
    QString unitWords;
    int decimals = 0;
    bool optional = false;
    QString limitWords; ///< "at least 3.0 mm (house: ...)"; may be empty
    bool hasValue = false;
    QString valueWords; ///< "1.9 mm"
    QString valueText;  ///< digits or option id, to edit
    int outcome = 0;    ///< ReadingKinds.Outcome
    QString outcomeWords;
    int readingId = 0; ///< of the value that counts; for correctReading
    QString byWords;
    QString earlierWords; ///< values that were measured again, oldest first
    QString standsWords;  ///< why it is not taken anew, and what to do; empty: it may be
    bool another = false; ///< it is corrected by somebody else than who read it, with a photo
    /// This car's figure or limit must be entered first, with its source.
    bool figureNeeded = false;
    bool figureMissing = false;
    QString figureFrom;  ///< "vehicle data": who is to be asked
    QString figureWords; ///< "120 Nm, maker's data sheet, Oskar"
    QString figureSource;
    bool figureOpen = false;    ///< its work is open: a wrong one can be put right
    bool figureInUse = false;   ///< by a correction, with the reason; otherwise typed over
    bool figureAnother = false; ///< by somebody else than whose word it is, with a photo
    QStringList optionIds;
    QStringList optionTitles;
    QStringList optionWords; ///< beside an option: "stays open", "opens ..."; may be empty
    QString toolWords; ///< of the value: "torque wrench T 7", "tool not entered"; may be empty
    QString toolKind;  ///< "torque wrench", where one of several is to be chosen; empty
    QList<int> toolIds;
    QStringList toolNumbers;
    int toolId = 0; ///< chosen, or the only one; 0 none

    [[nodiscard]] QString key() const { return rowId; }
    friend bool operator==(const ReadingRow&, const ReadingRow&) = default;
};

struct CautionRow
{
    int cautionId = 0;
    QString words;

    [[nodiscard]] int key() const { return cautionId; }
    friend bool operator==(const CautionRow&, const CautionRow&) = default;
};

class OperationsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit OperationsModel(QObject* parent = nullptr);
    void setRows(std::vector<OperationRow> rows);
    /// How many stand at a place; with none named, all.
    Q_INVOKABLE int countAt(const QString& placeId) const;
    [[nodiscard]] const std::vector<OperationRow>& rows() const;
};

class FindingsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit FindingsModel(QObject* parent = nullptr);
    void setRows(std::vector<FindingRow> rows);
    /// How many stand at a place; with none named, all.
    Q_INVOKABLE int countAt(const QString& placeId) const;
    [[nodiscard]] const std::vector<FindingRow>& rows() const;
};

class HoldsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit HoldsModel(QObject* parent = nullptr);
    void setRows(std::vector<HoldRow> rows);
    [[nodiscard]] const std::vector<HoldRow>& rows() const;
};

class HistoryModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit HistoryModel(QObject* parent = nullptr);
    void setRows(std::vector<HistoryRow> rows);
    [[nodiscard]] const std::vector<HistoryRow>& rows() const;
};

class PhotosModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit PhotosModel(QObject* parent = nullptr);
    void setRows(std::vector<PhotoRow> rows);
    [[nodiscard]] const std::vector<PhotoRow>& rows() const;
};

class PhotoNeedsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit PhotoNeedsModel(QObject* parent = nullptr);
    void setRows(std::vector<PhotoNeedRow> rows);
    [[nodiscard]] const std::vector<PhotoNeedRow>& rows() const;
};

class SegmentsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit SegmentsModel(QObject* parent = nullptr);
    void setRows(std::vector<SpanRow> rows);
    [[nodiscard]] const std::vector<SpanRow>& rows() const;
};

class ReadingsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit ReadingsModel(QObject* parent = nullptr);
    void setRows(std::vector<ReadingRow> rows);
    [[nodiscard]] const std::vector<ReadingRow>& rows() const;
};

class CautionsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit CautionsModel(QObject* parent = nullptr);
    void setRows(std::vector<CautionRow> rows);
    [[nodiscard]] const std::vector<CautionRow>& rows() const;
};

} // namespace ramplight
