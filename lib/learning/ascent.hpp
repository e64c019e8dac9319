// One safe step uphill on a smooth function of few variables; internal to the layer.
#pragma once

#include <functional>

#include <Eigen/Core>

namespace likelihet::learning {

/// A value and, where `gradient` is not null, its gradient there. -infinity outside the domain.
using Height = std::function<double(const Eigen::VectorXd& at, Eigen::VectorXd* gradient)>;

/// Newton's step with the Hessian from differences of the gradient (Nocedal and Wright 2006,
/// Numerical Optimization, sections 3.4 and 8.1), a multiple of the identity added until it is
/// negative definite, halved until the function does not fall. Gives `from` back where no step
/// that is long enough to matter helps.
Eigen::VectorXd step_uphill(const Height& height, const Eigen::VectorXd& from);

}  // namespace likelihet::learning
