// Newton's method, damped.
#include <algorithm>
#include <cmath>

#include <Eigen/Cholesky>

#include <likelihet/learning/ascent.hpp>

namespace likelihet::learning {

namespace {

// Minus the Hessian, symmetric.
Eigen::MatrixXd curvature(const Height& height, const Eigen::VectorXd& at) {
  constexpr double step = 1e-4;
  Eigen::MatrixXd out(at.size(), at.size());
  Eigen::VectorXd above(at.size());
  Eigen::VectorXd below(at.size());
  for (Eigen::Index i = 0; i < at.size(); ++i) {
    Eigen::VectorXd moved = at;
    moved[i] = at[i] + step;
    height(moved, &above);
    moved[i] = at[i] - step;
    height(moved, &below);
    out.col(i) = (below - above) / (2 * step);
  }
  return 0.5 * (out + out.transpose());
}

Eigen::VectorXd direction(const Eigen::MatrixXd& curved, const Eigen::VectorXd& gradient) {
  double ridge = 0;
  for (int tries = 0; tries < 60; ++tries) {
    const Eigen::MatrixXd safe =
        curved + ridge * Eigen::MatrixXd::Identity(curved.rows(), curved.cols());
    const Eigen::LLT<Eigen::MatrixXd> factored(safe);
    if (factored.info() == Eigen::Success) return factored.solve(gradient);
    ridge = std::max(2 * ridge, 1e-3 * (1 + curved.cwiseAbs().maxCoeff()));
  }
  return gradient;
}

}  // namespace

Eigen::VectorXd step_uphill(const Height& height, const Eigen::VectorXd& from) {
  Eigen::VectorXd gradient(from.size());
  const double start = height(from, &gradient);
  Eigen::VectorXd by = direction(curvature(height, from), gradient);
  if (!by.allFinite()) return from;
  constexpr double longest = 2;  // in log odds or loadings: farther is guesswork
  by *= std::min(1.0, longest / std::max(by.cwiseAbs().maxCoeff(), 1e-300));
  constexpr int halvings = 40;
  for (int i = 0; i < halvings; ++i, by *= 0.5) {
    Eigen::VectorXd to = from + by;
    if (height(to, nullptr) >= start) return to;
  }
  return from;
}

}  // namespace likelihet::learning
