// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "evidence/photoalignment.h"

#include "evidence/contrastpyramid.h"

#include <QPolygonF>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <optional>
#include <vector>

namespace ramplight {
namespace {

// Measured on drawn doors, wheels and painted panels, their light, grain and repair differing. The
// same place from the same direction: 0.73 and more with a tenth of the picture changed, 0.60 with
// a fifth. Seen from the side, so that a similarity leaves 2 % of the long side: 0.65 to 0.4. What
// was laid wrongly reached 0.50; pictures of different things 0.22.
constexpr double leastCorrelation = 0.55;
constexpr double leastOverlap = 0.4;

// The coarse search: steps within which the refinement finds the rest by itself.
constexpr double scaleStep = 1.12;
constexpr int scaleSteps = 3; ///< up and down: 0.71 to 1.40
constexpr double turnStep = 6.0 * std::numbers::pi / 180;
constexpr int turnSteps = 3; ///< each way
constexpr double mostShift = 0.3;
constexpr int keptApart = 4; ///< pixels of the coarsest copy between two shifts that are both kept
constexpr std::size_t shiftsKept = 6;
constexpr double sameBasin = 0.08; ///< of the long side
constexpr std::size_t mostCandidates = 24;

constexpr int mostIterations = 25;
/// Of the long side: a hundredth of a pixel of the finest copy.
constexpr double settled = 0.01 / ContrastPyramid::finestSide;

struct Candidate
{
    Similarity at;
    double score = 0;
};

struct Point
{
    double x = 0;
    double y = 0;
};

Point mapped(const Similarity& s, double x, double y)
{
    return {s.a * x - s.b * y + s.right, s.b * x + s.a * y + s.down};
}

double degreesOfArc(double radians)
{
    return radians * 180 / std::numbers::pi;
}

// ---- the coarse search

/// The later picture with one scale and turn taken out of it, on the earlier one's grid with a rim.
struct Turned
{
    int width = 0;
    int height = 0;
    std::vector<float> value;   ///< 0 where it does not cover
    std::vector<float> covered; ///< 1 or 0
};

Turned turned(const ContrastLevel& before, const ContrastLevel& after, const Similarity& turn,
              int rimX, int rimY)
{
    Turned t;
    t.width = before.width + 2 * rimX;
    t.height = before.height + 2 * rimY;
    const auto size = static_cast<std::size_t>(t.width) * static_cast<std::size_t>(t.height);
    t.value.assign(size, 0.0F);
    t.covered.assign(size, 0.0F);
    std::size_t at = 0;
    for (int y = 0; y < t.height; ++y)
        for (int x = 0; x < t.width; ++x, ++at) {
            const Point p = mapped(turn, before.xOf(x - rimX), before.yOf(y - rimY));
            if (const auto value = after.valueAt(p.x, p.y)) {
                t.value[at] = *value;
                t.covered[at] = 1.0F;
            }
        }
    return t;
}

/// Correlation of the earlier picture with the part of the turned one that begins at (left, top).
double scoreAt(const ContrastLevel& before, const Turned& t, int left, int top)
{
    float cross = 0;
    float energyBefore = 0;
    float energyAfter = 0;
    float count = 0;
    for (int y = 0; y < before.height; ++y) {
        const auto line = static_cast<std::size_t>(y) * static_cast<std::size_t>(before.width);
        const auto other = static_cast<std::size_t>(y + top) * static_cast<std::size_t>(t.width) +
                           static_cast<std::size_t>(left);
        for (std::size_t x = 0; x < static_cast<std::size_t>(before.width); ++x) {
            const float v = before.value[line + x];
            const float w = t.value[other + x];
            const float c = t.covered[other + x];
            cross += v * w;
            energyBefore += c * v * v;
            energyAfter += w * w;
            count += c;
        }
    }
    const double overlap = double(count) / double(before.value.size());
    const double energy = std::sqrt(double(energyBefore) * double(energyAfter));
    // A small overlap fits by chance: it counts less.
    return overlap < leastOverlap || energy <= 0 ? 0 : double(cross) / energy * std::sqrt(overlap);
}

/// The best shifts of one scale and turn that are no neighbours of better ones.
void keepPeaks(std::vector<Candidate>& found, const ContrastLevel& before, const Turned& t,
               const Similarity& turn)
{
    const int shiftsX = t.width - before.width + 1;
    const int shiftsY = t.height - before.height + 1;
    const int middleX = shiftsX / 2;
    const int middleY = shiftsY / 2;
    struct Peak
    {
        int x = 0;
        int y = 0;
        double score = 0;
    };
    std::vector<Peak> peaks;
    for (int y = 0; y < shiftsY; ++y)
        for (int x = 0; x < shiftsX; ++x)
            if (const double score = scoreAt(before, t, x, y); score > 0)
                peaks.push_back({x, y, score});
    std::ranges::stable_sort(peaks, std::greater<>(), &Peak::score);
    std::vector<Peak> kept;
    for (const Peak& peak : peaks) {
        if (kept.size() == shiftsKept)
            break;
        if (std::ranges::any_of(kept, [&](const Peak& other) {
                return std::max(std::abs(peak.x - other.x), std::abs(peak.y - other.y)) < keptApart;
            }))
            continue;
        kept.push_back(peak);
        const Point p =
            mapped(turn, (peak.x - middleX) * before.unitX, (peak.y - middleY) * before.unitY);
        found.push_back({{turn.a, turn.b, p.x, p.y}, peak.score});
    }
}

/// The furthest that the two lay a corner of a picture apart.
double between(const Similarity& one, const Similarity& other)
{
    const Similarity off{one.a - other.a, one.b - other.b, one.right - other.right,
                         one.down - other.down};
    double most = 0;
    for (const double x : {-0.5, 0.5})
        for (const double y : {-0.4, 0.4}) {
            const Point p = mapped(off, x, y);
            most = std::max(most, std::hypot(p.x, p.y));
        }
    return most;
}

/// The best first, each so far from those before it that refining leads somewhere else.
std::vector<Candidate> searched(const ContrastLevel& before, const ContrastLevel& after)
{
    const int rimX = static_cast<int>(mostShift / before.unitX);
    const int rimY = static_cast<int>(mostShift / before.unitY);
    std::vector<Candidate> found;
    for (int s = -scaleSteps; s <= scaleSteps; ++s)
        for (int r = -turnSteps; r <= turnSteps; ++r) {
            const double scale = std::pow(scaleStep, s);
            const Similarity turn{scale * std::cos(r * turnStep), scale * std::sin(r * turnStep), 0,
                                  0};
            keepPeaks(found, before, turned(before, after, turn, rimX, rimY), turn);
        }
    std::ranges::stable_sort(found, std::greater<>(), &Candidate::score);
    std::vector<Candidate> best;
    for (const Candidate& candidate : found) {
        if (best.size() == mostCandidates)
            break;
        if (std::ranges::none_of(best, [&](const Candidate& other) {
                return between(candidate.at, other.at) < sameBasin;
            }))
            best.push_back(candidate);
    }
    return best;
}

// ---- the refinement

using Vector4 = std::array<double, 4>;
using Matrix4 = std::array<Vector4, 4>;

double dot(const Vector4& a, const Vector4& b)
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3];
}

/// Gauss's elimination with pivots. Nothing when the pictures leave a direction open.
std::optional<Vector4> solved(Matrix4 m, Vector4 v)
{
    for (std::size_t i = 0; i < 4; ++i) {
        std::size_t pivot = i;
        for (std::size_t row = i + 1; row < 4; ++row)
            if (std::abs(m[row][i]) > std::abs(m[pivot][i]))
                pivot = row;
        std::swap(m[i], m[pivot]);
        std::swap(v[i], v[pivot]);
        if (std::abs(m[i][i]) < 1e-9)
            return std::nullopt;
        for (std::size_t row = i + 1; row < 4; ++row) {
            const double f = m[row][i] / m[i][i];
            for (std::size_t k = i; k < 4; ++k)
                m[row][k] -= f * m[i][k];
            v[row] -= f * v[i];
        }
    }
    for (std::size_t i = 4; i-- > 0;) {
        for (std::size_t k = i + 1; k < 4; ++k)
            v[i] -= m[i][k] * v[k];
        v[i] /= m[i][i];
    }
    return v;
}

/// Sums over the pixels where both pictures are, of one pass over a level.
struct Overlap
{
    double count = 0;
    double r = 0;  ///< of the earlier picture
    double w = 0;  ///< of the later picture, warped
    double rr = 0; ///< and of their products
    double ww = 0;
    double rw = 0;
    Vector4 g{}; ///< of the later picture's change with each parameter
    Vector4 gr{};
    Vector4 gw{};
    Matrix4 gg{};
};

Overlap overlapOf(const ContrastLevel& before, const ContrastLevel& after, const Similarity& s)
{
    Overlap o;
    std::size_t at = 0;
    for (int row = 0; row < before.height; ++row)
        for (int column = 0; column < before.width; ++column, ++at) {
            const double x = before.xOf(column);
            const double y = before.yOf(row);
            const Point p = mapped(s, x, y);
            const auto sample = after.sampleAt(p.x, p.y);
            if (!sample)
                continue;
            const double r = before.value[at];
            const double w = sample->value;
            const Vector4 g{sample->dx * x + sample->dy * y, sample->dy * x - sample->dx * y,
                            sample->dx, sample->dy};
            o.count += 1;
            o.r += r;
            o.w += w;
            o.rr += r * r;
            o.ww += w * w;
            o.rw += r * w;
            for (std::size_t i = 0; i < 4; ++i) {
                o.g[i] += g[i];
                o.gr[i] += g[i] * r;
                o.gw[i] += g[i] * w;
                for (std::size_t k = i; k < 4; ++k)
                    o.gg[i][k] += g[i] * g[k];
            }
        }
    if (o.count == 0)
        return o;
    // About the means of the overlap, as the coefficient wants them.
    for (std::size_t i = 0; i < 4; ++i) {
        o.gr[i] -= o.g[i] * o.r / o.count;
        o.gw[i] -= o.g[i] * o.w / o.count;
        for (std::size_t k = i; k < 4; ++k) {
            o.gg[i][k] -= o.g[i] * o.g[k] / o.count;
            o.gg[k][i] = o.gg[i][k];
        }
    }
    o.rr -= o.r * o.r / o.count;
    o.ww -= o.w * o.w / o.count;
    o.rw -= o.r * o.w / o.count;
    return o;
}

double correlationOf(const Overlap& o)
{
    return o.rr <= 0 || o.ww <= 0 ? 0 : o.rw / std::sqrt(o.rr * o.ww);
}

/// One step of the forward algorithm (section 3 of the paper); nothing when it cannot go on.
std::optional<Vector4> stepFrom(const Overlap& o)
{
    const auto onR = solved(o.gg, o.gr);
    const auto onW = solved(o.gg, o.gw);
    if (!onR || !onW)
        return std::nullopt;
    const double above = o.ww - dot(o.gw, *onW);
    const double below = o.rw - dot(o.gr, *onW);
    if (below <= 0)
        return std::nullopt;
    const double lambda = above / below;
    Vector4 step{};
    for (std::size_t i = 0; i < 4; ++i)
        step[i] = lambda * (*onR)[i] - (*onW)[i];
    return step;
}

bool isSearched(const Similarity& s)
{
    // Half a step beyond what the coarse search tries.
    const double widest = std::pow(scaleStep, scaleSteps + 0.5);
    return s.scale() < widest && s.scale() > 1 / widest &&
           std::abs(s.degrees()) < degreesOfArc(turnStep * (turnSteps + 0.5));
}

/// Refines as long as the correlation grows.
PhotoAlignment refined(const ContrastLevel& before, const ContrastLevel& after,
                       const Similarity& from)
{
    const auto measured = [&](const Similarity& s, const Overlap& o) {
        return PhotoAlignment{s, correlationOf(o), o.count / double(before.value.size())};
    };
    Overlap o = overlapOf(before, after, from);
    PhotoAlignment best = measured(from, o);
    for (int i = 0; i < mostIterations; ++i) {
        const auto step = stepFrom(o);
        if (!step)
            break;
        Similarity next = best.toAfter;
        next.a += (*step)[0];
        next.b += (*step)[1];
        next.right += (*step)[2];
        next.down += (*step)[3];
        if (!isSearched(next))
            break;
        o = overlapOf(before, after, next);
        const PhotoAlignment now = measured(next, o);
        if (now.overlap < leastOverlap || now.correlation <= best.correlation)
            break;
        best = now;
        if (std::ranges::all_of(*step, [](double d) { return std::abs(d) < settled; }))
            break;
    }
    return best;
}

} // namespace

double Similarity::scale() const
{
    return std::hypot(a, b);
}

double Similarity::degrees() const
{
    return degreesOfArc(std::atan2(b, a));
}

bool PhotoAlignment::isClose() const
{
    return correlation >= leastCorrelation && overlap >= leastOverlap;
}

PhotoAlignment alignPhotos(const QImage& before, const QImage& after)
{
    if (before.isNull() || after.isNull())
        return {};
    const ContrastPyramid one(before);
    const ContrastPyramid other(after);
    const std::size_t levels = std::min(one.levels().size(), other.levels().size());
    const auto refinedOn = [&](std::size_t level, const Similarity& from) {
        return refined(one.levels()[level], other.levels()[level], from);
    };

    PhotoAlignment best;
    for (const Candidate& candidate : searched(one.levels()[0], other.levels()[0])) {
        PhotoAlignment found = refinedOn(0, candidate.at);
        if (levels > 1)
            found = refinedOn(1, found.toAfter);
        if (found.correlation > best.correlation)
            best = found;
    }
    if (best.correlation <= 0)
        return {};
    PhotoAlignment judged = best;
    for (std::size_t level = 2; level < levels; ++level) {
        best = refinedOn(level, best.toAfter);
        // How well it fits is told by the second finest: in the finest, grain and blur speak, too.
        if (level + 1 < levels)
            judged = best;
    }
    judged.toAfter = best.toAfter;
    return judged;
}

QTransform pixelTransform(const Similarity& toAfter, QSize before, QSize after)
{
    const double beforeSide = std::max(before.width(), before.height());
    const double afterSide = std::max(after.width(), after.height());
    if (beforeSide <= 0)
        return {};
    const double k = afterSide / beforeSide;
    const QTransform linear(k * toAfter.a, k * toAfter.b, -k * toAfter.b, k * toAfter.a,
                            afterSide * toAfter.right, afterSide * toAfter.down);
    return QTransform::fromTranslate(-before.width() / 2.0, -before.height() / 2.0) * linear *
           QTransform::fromTranslate(after.width() / 2.0, after.height() / 2.0);
}

QRectF commonPart(const Similarity& toAfter, QSize before, QSize after)
{
    bool turns = false;
    const QTransform back = pixelTransform(toAfter, before, after).inverted(&turns);
    if (!turns || before.isEmpty() || after.isEmpty())
        return {};
    const QPolygonF corners = back.map(QPolygonF(QRectF(QPointF(0, 0), QSizeF(after))));
    // A small turn leaves the corners where they were: upper left, upper right, lower right, lower
    // left. The inner edges of each pair are the largest upright part but for a sliver.
    const double left = std::max({0.0, corners[0].x(), corners[3].x()});
    const double right = std::min({double(before.width()), corners[1].x(), corners[2].x()});
    const double top = std::max({0.0, corners[0].y(), corners[1].y()});
    const double bottom = std::min({double(before.height()), corners[2].y(), corners[3].y()});
    if (right <= left || bottom <= top)
        return {};
    return {left, top, right - left, bottom - top};
}

} // namespace ramplight
